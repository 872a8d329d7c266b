using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;
using BrassVox.Synthesis;

namespace BrassVox.Tests.Practice;

/// <summary>A real pair engine rendered block by block, as a sound thread would, but at once.</summary>
internal sealed class OfflineEngine
{
    public const int SampleRateHz = 48000;
    public const int BlockSamples = 480;

    private static readonly TonePresets Tones = TonePresets.Load(Path.Combine(AppContext.BaseDirectory, "presets", "tones"));

    public OfflineEngine()
    {
        Engine = new FlowPair(Tones.BrassById("trombone"), Tones.VoiceById("bass"), 1);
        Engine.Prepare(new RenderFormat(SampleRateHz, BlockSamples));
        Engine.LevelDb.Target = -12;
    }

    public FlowPair Engine { get; }

    /// <summary>Renders blocks and calls something after each, as a screen's timer would.</summary>
    public float[] Render(double seconds, Action afterBlock)
    {
        float[] sound = new float[(int)(seconds * SampleRateHz) / BlockSamples * BlockSamples];
        for (int at = 0; at < sound.Length; at += BlockSamples)
        {
            Engine.Render(sound.AsSpan(at, BlockSamples));
            afterBlock();
        }

        return sound;
    }

    /// <summary>Renders one step from silence, starting 0.1 s in.</summary>
    public static float[] RenderStep(ExerciseStep step)
    {
        var offline = new OfflineEngine();
        var waiting = new Queue<PairEvent>(PairScript.Of(step, offline.Engine.Parts, SampleRateHz, SampleRateHz / 10));
        return offline.Render(step.DurationSeconds + 0.3, () =>
        {
            while (waiting.TryPeek(out PairEvent next) && next.AtSample < offline.Engine.SamplesRendered + (2 * BlockSamples) + 960 && offline.Engine.TryPost(next))
            {
                waiting.Dequeue();
            }
        });
    }
}
