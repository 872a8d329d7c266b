using BrassVox.Analysis.Tracking;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>An octave off is told when it lasts, not for a window or two.</summary>
public sealed class OctaveEvidenceTests
{
    [Fact]
    public void One_look_however_clear_is_not_enough()
    {
        OctaveEvidence evidence = new(2);
        Assert.False(evidence.Look(0, 1000.0, 50.0));
        Assert.False(evidence.Look(0, 1000.0, 50.0));
        Assert.True(evidence.Look(0, 1000.0, 50.0));
        Assert.False(evidence.Look(1, 1000.0, 50.0));
    }

    [Fact]
    public void Better_in_four_windows_of_ten_is_not_better_on_the_average()
    {
        OctaveEvidence evidence = new(1);
        for (int i = 0; i < 100; i++)
        {
            Assert.False(evidence.Look(0, i % 10 is 1 or 4 or 6 or 9 ? 40.0 : -40.0, 50.0) && i > 10, $"look {i}");
        }
    }

    [Fact]
    public void What_lasted_gives_way_within_a_second_and_is_forgotten_at_once_when_cleared()
    {
        OctaveEvidence evidence = new(1);
        Assert.True(After(50, 30.0));
        Assert.False(After(10, -30.0));
        Assert.True(After(50, 30.0));
        evidence.Clear();
        Assert.False(After(1, 30.0));

        bool After(int looks, double excess)
        {
            bool lasts = false;
            for (int i = 0; i < looks; i++)
            {
                lasts = evidence.Look(0, excess, 50.0);
            }

            return lasts;
        }
    }
}
