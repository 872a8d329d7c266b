namespace BrassVox.Practice.Log;

/// <summary>Where the body was noticed between takes. An observation, never a grade.</summary>
public enum BodyTag
{
    /// <summary>Jaw.</summary>
    Jaw,

    /// <summary>Root of the tongue.</summary>
    TongueRoot,

    /// <summary>Throat.</summary>
    Throat,

    /// <summary>Shoulders.</summary>
    Shoulders,

    /// <summary>Breath.</summary>
    Breath,

    /// <summary>Lips.</summary>
    Lips,
}
