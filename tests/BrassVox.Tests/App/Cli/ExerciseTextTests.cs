using BrassVox.App.Cli;
using BrassVox.Practice.Sessions;
using BrassVox.Tests.Practice;
using BrassVox.Tests.Practice.Log;
using Xunit;

namespace BrassVox.Tests.App.Cli;

/// <summary>What is printed of a take.</summary>
public sealed class ExerciseTextTests
{
    /// <summary>1200 cents are an octave (exact).</summary>
    [Fact]
    public void Another_octave_is_said_once_of_a_tone_though_two_judgements_found_it()
    {
        JudgedTake judged = LogRig.Judged(played: new SimulatedTone { OffsetCents = 1200 });
        Assert.Equal(2, judged.Result.Findings.Count(finding => finding.Text.Contains("an octave or more above", StringComparison.Ordinal)));
        Assert.Single(ExerciseText.Result(judged, []).Split('\n'), line => line.Contains("an octave or more above", StringComparison.Ordinal));
    }
}
