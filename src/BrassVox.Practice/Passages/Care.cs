namespace BrassVox.Practice.Passages;

/// <summary>What a moment of a passage asks attention for.</summary>
public enum Care
{
    /// <summary>P lies outside the instrument's usual range.</summary>
    PlayedRange,

    /// <summary>S lies outside the voice's easy range.</summary>
    SungRange,

    /// <summary>S crosses the place where the voice changes register.</summary>
    Register,

    /// <summary>P leaps more than a fifth.</summary>
    PlayedLeap,

    /// <summary>S leaps more than a fourth.</summary>
    SungLeap,

    /// <summary>Both leap at once, each more than a major second.</summary>
    BothLeap,

    /// <summary>The tones lie on one another's lines (unison, octave, twelfth): the ear has beats, the screen has no cents.</summary>
    Fog,

    /// <summary>The tone they make lies under what the speaker carries.</summary>
    Low,
}
