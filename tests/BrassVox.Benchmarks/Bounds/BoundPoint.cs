namespace BrassVox.Benchmarks.Bounds;

/// <summary>One tone of one pair in windows of one length at one signal-to-noise ratio.</summary>
internal readonly record struct BoundPoint(int WindowMs, int SnrDb, double BoundCents, double RmsCents);
