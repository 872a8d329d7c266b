namespace BrassVox.Synthesis;

/// <summary>A mono source of samples that never ends. Parents own, prepare and render their children.</summary>
public interface ISoundSource
{
    /// <summary>Allocates and computes all that rendering needs. Not on the sound thread; may throw.</summary>
    /// <param name="format">Rate and largest block.</param>
    void Prepare(RenderFormat format);

    /// <summary>Overwrites all of <paramref name="output"/>. On the sound thread: never allocates, locks, waits or throws.</summary>
    /// <param name="output">Mono samples, full scale 1; length 0 to the prepared maximum.</param>
    void Render(Span<float> output);

    /// <summary>Back to sample zero with parameters kept: Reset then Render repeats the output exactly.</summary>
    void Reset();
}
