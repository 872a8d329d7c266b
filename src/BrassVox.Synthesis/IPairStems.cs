namespace BrassVox.Synthesis;

/// <summary>A pair that can hand out its sound in three stems whose sum is the mix.</summary>
public interface IPairStems
{
    /// <summary>Renders like <see cref="ISoundSource.Render"/>, apart: the limiter's gain is found for the mix and laid on all three, so they add up to it.</summary>
    /// <param name="played">The played tone.</param>
    /// <param name="sung">The sung tone, of the same length.</param>
    /// <param name="resultants">All that neither of them has alone, of the same length.</param>
    void RenderStems(Span<float> played, Span<float> sung, Span<float> resultants);
}
