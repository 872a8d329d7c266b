using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Glides of the voice through a tone that it holds, with the pitches of both as they were drawn.</summary>
public sealed class DrawnGlideTests
{
    /// <summary>
    /// A voice that glides through the octave, unison or twelfth of a tone it holds within 1.6 Hz; the pitches of both as they were drawn.
    /// Source of the law: R. Adler 1946 (from memory): phase' = distance - L sin phase.
    /// </summary>
    [Theory]
    [InlineData(1, 1, 1.6, 20)]
    [InlineData(2, 1, 1.6, 20)]
    [InlineData(2, 1, 1.6, -20)]
    [InlineData(3, 1, 1.6, 20)]
    [InlineData(2, 1, 0.0, 20)]
    public void The_zone_of_a_glide_is_read_from_its_beats(int k, int m, double lockHz, double slope)
    {
        (float[] sound, AnalysisFrame[] frames) = Glide(k, m, lockHz, slope);
        CaptureZone? zone = CaptureZone.Of(sound, frames);
        Assert.Equal(lockHz > 0, zone is { IsCaught: true });
        if (lockHz > 0)
        {
            double half = 1200 * Math.Log2(1 + (lockHz / (k * 116)));
            Assert.Equal((k, m), (zone!.Value.PlayedHarmonic, zone.Value.SungHarmonic));
            Assert.Equal(-half, zone.Value.LowCents, 3.0);
            Assert.Equal(half, zone.Value.HighCents, 3.0);
            Assert.Equal(zone.Value.HighCents - zone.Value.LowCents, zone.Value.WidthCents, 9);
            Assert.True(zone.Value.Beats >= 6);
        }
    }

    /// <summary>Nothing is read where the voice passes no meeting, jumps over one by 300 c or more, or was not told for a tenth of a second on a side.</summary>
    [Fact]
    public void Without_frames_on_both_sides_of_a_meeting_there_is_no_zone()
    {
        (float[] sound, AnalysisFrame[] frames) = Glide(2, 1, 1.6, 20);
        int middle = Array.FindIndex(frames, frame => frame.Sung!.Value.FrequencyHz > 2 * frame.Played!.Value.FrequencyHz);
        Assert.NotNull(CaptureZone.Of(sound, frames));
        Assert.Null(CaptureZone.Of(sound, [.. frames.Take(middle - 1)]));
        Assert.Null(CaptureZone.Of(sound, [.. frames.Take(middle + 9)]));
        Assert.Null(CaptureZone.Of(sound, [.. frames.Skip(middle - 9)]));
        Assert.Null(CaptureZone.Of(sound, [.. frames.Select((frame, i) => frame with { Sung = new PitchEstimate(232 * (i < middle ? 0.8 : 1.25), -20, 1) })]));
        Assert.Null(CaptureZone.Of([], []));
    }

    private static (float[] Sound, AnalysisFrame[] Frames) Glide(int k, int m, double lockHz, double slope)
    {
        const int rate = 4_000;
        const double seconds = 16;
        float[] sound = new float[(int)(seconds * rate)];
        List<AnalysisFrame> frames = [];
        double played = 0, sung = 0.37, heldHz = 116;
        for (int i = 0; i < sound.Length; i++)
        {
            double at = (double)i / rate;
            double sungHz = Cents.Above(116.0 * k / m, slope * (at - 8));
            double heard = 116 - (lockHz / k * Math.Sin(2 * Math.PI * ((k * played) - (m * sung))));

            // A window of 160 ms hears the mean of what the held tone does.
            heldHz += (heard - heldHz) / (0.16 * rate);
            if (i % 40 == 0 && i >= 400 && i < sound.Length - 400)
            {
                frames.Add(new AnalysisFrame(i - 320, 640, rate, -20, new PitchEstimate(heldHz, -20, 1), new PitchEstimate(sungHz, -20, 1), null, Separability.Separable));
            }

            for (int n = 1; n <= 8; n++)
            {
                sound[i] += (float)((0.2 / n * Math.Cos((2 * Math.PI * n * played) + (0.7 * n * n))) + (0.12 / n * Math.Cos((2 * Math.PI * n * sung) + (1.1 * n * n))));
            }

            played += heard / rate;
            sung += sungHz / rate;
        }

        return (sound, [.. frames]);
    }
}
