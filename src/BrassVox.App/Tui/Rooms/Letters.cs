using BrassVox.App.Tui.Input;

namespace BrassVox.App.Tui.Rooms;

/// <summary>The one meaning that each letter has, wherever it has one. Any can be given another letter in keys.json.</summary>
internal static class Letters
{
    /// <summary>All of them. A further letter is one line here.</summary>
    public static IReadOnlyList<LetterMeaning> All { get; } =
    [
        new("5-cents-higher", 'l', "5 c higher, in Explore and Listen"),
        new("5-cents-lower", 'j', "5 c lower, in Explore and Listen"),
        new("again", 'r', "once more: in Listen, Section, Play along, Stage, a kept take; the loop in Passage"),
        new("blank", 'b', "blanks the screen, in Stage"),
        new("body", 'y', "notes where you noticed your body"),
        new("cent-higher", '.', "a little more, in Explore, Listen, Section, Play along, Passage and Plan"),
        new("cent-lower", ',', "a little less, in Explore, Listen, Section, Play along, Passage and Plan"),
        new("couple", 'c', "couples the pair, in Explore"),
        new("fade", 'f', "fades the part in hand, in Explore"),
        new("freeze", 'x', "freezes the picture, in Explore and Stage"),
        new("glide", 'g', "glides to a note, in Explore"),
        new("keep", 'k', "keeps: the pair in Explore, a take in Takes to lay the next over it"),
        new("keys", 'h', "lists the keys"),
        new("microphone", 'i', "turns the microphone on and off, in Explore, Set-up and Players"),
        new("mute", 'm', "mutes: the part in hand in Explore, the drone in Play along"),
        new("name", 'n', "opens a line to type in, in Explore, Listen, Section, Passage, Takes and Players"),
        new("octave", 'v', "moves the sung tone an octave, in Explore and Passage"),
        new("only", 'o', "leaves only one: the part in hand in Explore, one of your two tones in Play along and Passage"),
        new("panel", 'a', "changes what is shown, in Explore, Stage and Keys"),
        new("played", 'p', "takes P in hand, in Explore"),
        new("quit", 'q', "quits, from Start"),
        new("semitone-down", 'd', "a semitone down, in Explore"),
        new("semitone-up", 'u', "a semitone up, in Explore"),
        new("sung", 's', "takes S in hand, in Explore"),
        new("theme", 't', "changes the theme"),
        new("tuning", 'e', "changes the tuning, in Explore and Section"),
        new("undo", 'z', "takes the last step back, in Explore, Play along, Passage, Takes, Plan and Stage"),
        new("where", 'w', "says where you are"),
    ];

    /// <summary>What a letter means and where, as letters usually are; null when it means nothing anywhere.</summary>
    /// <param name="letter">A lower-case letter, comma or full stop.</param>
    public static string? Meaning(char letter) => All.FirstOrDefault(item => item.Usual == letter)?.Does;

    /// <summary>Why a letter does nothing here.</summary>
    /// <param name="pressed">The letter that was pressed.</param>
    /// <param name="usual">The letter that it stands for.</param>
    /// <param name="list">The letter that lists the keys.</param>
    public static string WhyNot(char pressed, char usual, char list) => Meaning(usual) is { } meaning
        ? $"{pressed} {meaning}. Here it does nothing; {list} lists the keys."
        : $"{pressed} means nothing in any room; {list} lists the keys.";
}
