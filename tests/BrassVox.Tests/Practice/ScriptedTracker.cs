using BrassVox.Analysis;
using BrassVox.Practice.Exercises;

namespace BrassVox.Tests.Practice;

/// <summary>A tracker that hears a true P and an S that is 30 cents high, whatever it is given.</summary>
internal sealed class ScriptedTracker(int sampleRateHz, ResolvedExercise resolved) : IDuetTracker
{
    private long _heard;
    private long _next;

    public int SampleRateHz => sampleRateHz;

    public int WindowSamples => sampleRateHz * 16 / 100;

    public int HopSamples => sampleRateHz / 100;

    public int LatencySamples => WindowSamples / 2;

    public void Push(ReadOnlySpan<float> mono, ICollection<AnalysisFrame> frames)
    {
        _heard += mono.Length;
        for (; _next + WindowSamples <= _heard; _next += HopSamples)
        {
            frames.Add(new AnalysisFrame(
                _next, WindowSamples, sampleRateHz, -20,
                new PitchEstimate(resolved.Pair.PlayedHz, -20, 0.9),
                new PitchEstimate(resolved.Pair.SungHz * Math.Pow(2, 30.0 / 1200), -20, 0.9),
                6, Separability.Separable));
        }
    }

    public void SetPrior(DuetPrior prior)
    {
    }

    public void Reset() => (_heard, _next) = (0, 0);
}
