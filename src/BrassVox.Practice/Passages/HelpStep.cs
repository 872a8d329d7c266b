namespace BrassVox.Practice.Passages;

/// <summary>How much help a passage is practised with, most first. Two clean turns in a row take one help away.</summary>
public enum HelpStep
{
    /// <summary>The program sounds both tones.</summary>
    BothTones,

    /// <summary>It sounds P only, or the tone that the player does not make.</summary>
    OtherTone,

    /// <summary>The first sung note before, the click throughout.</summary>
    Cue,

    /// <summary>Only the click.</summary>
    Click,

    /// <summary>Nothing after the count.</summary>
    Nothing,
}
