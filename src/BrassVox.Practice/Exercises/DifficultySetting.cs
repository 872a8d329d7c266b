namespace BrassVox.Practice.Exercises;

/// <summary>What a listening exercise makes harder or easier from trial to trial.</summary>
public enum DifficultySetting
{
    /// <summary>Level of the audible resultants against the coupled pair, in dB.</summary>
    ResultantGainDb,

    /// <summary>Hz added to the sung tone: at the unison this is the beat rate.</summary>
    SungDetuneHz,

    /// <summary>Cents added to the sung tone.</summary>
    SungDetuneCents,

    /// <summary>Depth of the coupling where a sound is coupled.</summary>
    CouplingDepth,
}
