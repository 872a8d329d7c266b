using BrassVox.Publishing.Notation;

namespace BrassVox.Publishing.Handouts;

/// <summary>Engraved notes, each score once however many students have it. From any thread.</summary>
/// <param name="engraver">Engraves the notes.</param>
internal sealed class SharedNotes(Engraver engraver)
{
    private readonly Dictionary<string, TaskCompletionSource<Engraving>> _known = new(StringComparer.Ordinal);
    private readonly Lock _lock = new();

    /// <summary>The scores engraved, in their order; those that nobody has begun go into one run.</summary>
    /// <exception cref="OperationCanceledException"><paramref name="cancel"/> asked for it; the engraver's process has ended.</exception>
    public IReadOnlyList<Engraving> Of(IReadOnlyList<Score> scores, CancellationToken cancel)
    {
        List<Score> mine = [];
        List<TaskCompletionSource<Engraving>> promised = [];
        var all = new TaskCompletionSource<Engraving>[scores.Count];
        lock (_lock)
        {
            for (int i = 0; i < scores.Count; i++)
            {
                string text = LilyPondText.Write(scores[i], withLegend: false);
                if (!_known.TryGetValue(text, out TaskCompletionSource<Engraving>? known))
                {
                    known = new TaskCompletionSource<Engraving>();
                    _known.Add(text, known);
                    mine.Add(scores[i]);
                    promised.Add(known);
                }

                all[i] = known;
            }
        }

        if (mine.Count > 0)
        {
            try
            {
                foreach ((TaskCompletionSource<Engraving> one, Engraving engraving) in promised.Zip(engraver.Engrave(mine, withLegend: false, cancel)))
                {
                    one.SetResult(engraving);
                }
            }
            catch (Exception error)
            {
                promised.ForEach(one => one.TrySetException(error));
                throw;
            }
        }

        // Whoever was promised something keeps the promise before waiting, so nobody waits in a ring.
        return [.. all.Select(one => one.Task.GetAwaiter().GetResult())];
    }
}
