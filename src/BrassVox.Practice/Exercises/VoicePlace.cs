namespace BrassVox.Practice.Exercises;

/// <summary>How an exercise finds the octave of its sung tone.</summary>
public enum VoicePlace
{
    /// <summary>Sung from the home pair; another home pair or octave only when the voice's range asks for it.</summary>
    Home,

    /// <summary>The voice has to meet the played tone: P is raised until it can; failing that, S goes to another octave.</summary>
    Meet,

    /// <summary>P stays; S takes the octave nearest to the home pair's that the voice has.</summary>
    Near,

    /// <summary>Synthesised: no voice has to reach it.</summary>
    Any,
}
