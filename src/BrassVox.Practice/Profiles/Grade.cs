namespace BrassVox.Practice.Profiles;

/// <summary>How narrow the tolerances are. For an offset: I 25, II 15, III 10 cents.</summary>
/// <remarks>The figures are ours, to be tried with players. Singers' median note error is near 19 cents (doi 10.1121/1.4881915), so I is where most begin.</remarks>
public enum Grade
{
    /// <summary>Wide: the first aim.</summary>
    I,

    /// <summary>Middle: the usual aim.</summary>
    II,

    /// <summary>Narrow: a concert's aim.</summary>
    III,
}
