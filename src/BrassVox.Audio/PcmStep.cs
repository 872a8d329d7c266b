namespace BrassVox.Audio;

/// <summary>Answer of a device to one call on the sound thread.</summary>
/// <param name="State">Whether to go on.</param>
/// <param name="Samples">Samples per channel that may be moved now; 0 when none.</param>
/// <param name="Code">The back end's own error number, 0 when there is none.</param>
internal readonly record struct PcmStep(PcmState State, int Samples = 0, int Code = 0)
{
    /// <summary>Nothing to move yet.</summary>
    internal static PcmStep Idle => new(PcmState.Good);
}
