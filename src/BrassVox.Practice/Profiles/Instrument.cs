namespace BrassVox.Practice.Profiles;

/// <summary>The instruments that home pairs are known for.</summary>
public enum Instrument
{
    /// <summary>Tuba.</summary>
    Tuba,

    /// <summary>Euphonium.</summary>
    Euphonium,

    /// <summary>Trombone.</summary>
    Trombone,

    /// <summary>Horn.</summary>
    Horn,

    /// <summary>Trumpet.</summary>
    Trumpet,
}
