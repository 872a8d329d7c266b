using System.Globalization;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Builds findings, so that verdict, limit and grade are decided in one place.</summary>
internal static class Findings
{
    public static string ToneName(VoiceRole? role) => role switch
    {
        VoiceRole.Played => "The played tone",
        VoiceRole.Sung => "The sung tone",
        _ => "The pair",
    };

    public static string Cents(double cents) => string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(cents):0} c");

    public static string Signed(double cents) => string.Create(CultureInfo.InvariantCulture, $"{cents:+0;-0;0} c");

    public static string PerSecond(double rate) => string.Create(CultureInfo.InvariantCulture, $"{rate:0.0} /s");

    public static string Seconds(double seconds) => string.Create(CultureInfo.InvariantCulture, $"{seconds:0.0} s");

    /// <summary>A finding held against graded limits: met when the size of the value does not exceed the limit.</summary>
    public static Finding Graded(
        string stepId, string criterion, VoiceRole? role, Grade aim, Fault fault, double value, GradeLimits limits, string text, string unit = "c")
    {
        double size = Math.Abs(value);
        Grade? reached = new Grade?[] { Grade.III, Grade.II, Grade.I }.FirstOrDefault(grade => size <= limits.Of(grade!.Value));
        double limit = limits.Of(aim);
        bool met = size <= limit;
        return new Finding(
            stepId, criterion, role, met ? Verdict.Met : Verdict.Missed, met ? Fault.None : fault, value, limit, unit, reached, text);
    }

    /// <summary>A finding held against one limit for all grades.</summary>
    public static Finding Plain(
        string stepId, string criterion, VoiceRole? role, bool met, Fault fault, double? value, double? limit, string unit, string text) =>
        new(stepId, criterion, role, met ? Verdict.Met : Verdict.Missed, met ? Fault.None : fault, value, limit, unit, met ? Grade.III : null, text);

    /// <summary>Nothing could be told.</summary>
    public static Finding NotTold(string stepId, string criterion, VoiceRole? role, string unit, string text) =>
        new(stepId, criterion, role, Verdict.NotTold, Fault.None, null, null, unit, null, text);
}
