using System.Globalization;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>What a prompt says of the drone. It is made from what sounds, so that it is true however the drone is set. Pure.</summary>
public static class DroneSentence
{
    /// <summary>Stands in a prompt for the sentence, without a space before it.</summary>
    public const string Place = "{drone}";

    /// <summary>A space and the sentence.</summary>
    /// <param name="drones">The tones that the program sounds of the player's own, with their times.</param>
    /// <param name="stepSeconds">Length of the step in seconds, more than 0.</param>
    /// <returns>Empty where nothing sounds.</returns>
    public static string Of(IReadOnlyList<SoundingPart> drones, double stepSeconds)
    {
        SoundingPart[] heard = [.. drones.Where(part => part.Windows.Count > 0)];
        if (heard.Length == 0)
        {
            return "";
        }

        string first = Times(heard[0].Windows, stepSeconds);
        return heard.All(part => Times(part.Windows, stepSeconds) == first)
            ? $" The drone {first}."
            : string.Concat(heard.Select(part => $" The drone of {(part.Role == VoiceRole.Played ? "P" : "S")} {Times(part.Windows, stepSeconds)}."));
    }

    private static string Times(IReadOnlyList<Window> windows, double stepSeconds)
    {
        Window first = windows[0];
        bool fromTheStart = first.FromSeconds <= 0;
        if (windows.Count == 1 && (fromTheStart || first.ToSeconds >= stepSeconds))
        {
            return !fromTheStart ? $"comes at {Seconds(first.FromSeconds)}"
                : first.ToSeconds >= stepSeconds ? "sounds throughout" : $"leaves at {Seconds(first.ToSeconds)}";
        }

        return $"sounds at {string.Join(", ", windows.Select(window => string.Create(CultureInfo.InvariantCulture, $"{window.FromSeconds:0.#} to {window.ToSeconds:0.#}")))} s";
    }

    private static string Seconds(double seconds) => string.Create(CultureInfo.InvariantCulture, $"{seconds:0.#} s");
}
