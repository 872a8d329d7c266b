namespace BrassVox.Practice.Judging;

/// <summary>One part of the sentence beside what was measured.</summary>
/// <param name="Said">What was said, as text.</param>
/// <param name="Measured">What was measured, as text.</param>
/// <param name="IsRight">True when they agree; null when it could not be measured.</param>
public sealed record SayingCheck(string Said, string Measured, bool? IsRight);
