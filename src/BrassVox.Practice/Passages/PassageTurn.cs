namespace BrassVox.Practice.Passages;

/// <summary>What of a passage is practised in a turn, and how.</summary>
/// <param name="FromBar">First bar, from 1.</param>
/// <param name="ToBar">Last bar; null for the end.</param>
/// <param name="Help">How much help sounds.</param>
/// <param name="HearFirst">True when the whole turn is heard before it is asked for.</param>
public sealed record PassageTurn(int FromBar = 1, int? ToBar = null, HelpStep Help = HelpStep.BothTones, bool HearFirst = false);
