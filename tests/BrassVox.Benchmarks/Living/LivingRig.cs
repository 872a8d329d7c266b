using System.Globalization;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Living;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Living;

/// <summary>Instruments and renderings that the tables share.</summary>
internal static class LivingRig
{
    internal const int RateHz = 48000;

    internal static string BoresFolder { get; } = Path.Combine(Root(), "presets", "bores");

    internal static VoicePreset Voice(string id) => TonePresets.Load(Path.Combine(Root(), "presets", "tones")).VoiceById(id);

    internal static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    /// <summary>Renders seconds of a pair from its start; without a sung pitch the voice is silent.</summary>
    internal static float[] Render(LivingPair pair, double playedHz, double? sungHz, double seconds)
    {
        pair.Reset();
        pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(playedHz)));
        pair.TryPost(sungHz is { } hz ? PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(hz)) : PairEvent.Gain(1, -80));
        pair.TryPost(PairEvent.Start());
        return Continue(pair, seconds);
    }

    /// <summary>Renders on.</summary>
    internal static float[] Continue(LivingPair pair, double seconds)
    {
        float[] sound = new float[(int)(seconds * RateHz)];
        for (int at = 0; at < sound.Length; at += 256)
        {
            pair.Render(sound.AsSpan(at, Math.Min(256, sound.Length - at)));
        }

        return sound;
    }

    private static string Root()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "BrassVox.sln")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException("BrassVox.sln was not found above the benchmark.");
    }
}
