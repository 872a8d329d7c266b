using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What is kept of a take: its record, what was said of it, what was sung.</summary>
internal sealed partial class PlayAlongRoom
{
    private void Keep(Task<TakeSaving> keeping)
    {
        _keeping = keeping;
        _keptSaid = false;
        Stand.Await("The take", keeping);
    }

    // A take is kept as soon as it is measured, said or not: leaving, quitting and a lost device lose nothing.
    private async Task<TakeSaving> KeepAsync(Task<JudgedTake> measuring)
    {
        JudgedTake judged = await measuring.ConfigureAwait(false);
        return await Task.Run(() => _store.Keep(judged, null)).ConfigureAwait(false);
    }

    // A whole sentence is kept with its take, also where one leaves before that is measured.
    private void KeepSaid(Saying said)
    {
        if (_keeping is { } keeping)
        {
            Keep(AddAsync(keeping, said));
            _sureness = SurenessAsync(_keeping, said.Sure);
        }
    }

    private async Task<TakeSaving> AddAsync(Task<TakeSaving> keeping, Saying said)
    {
        TakeSaving kept = await keeping.ConfigureAwait(false);
        return kept.Record is { } record ? await Task.Run(() => _store.Say(record, said)).ConfigureAwait(false) : kept;
    }

    // A take of which nothing could be told says nothing of how sure one may be.
    private SurenessFigure? Sure => _sureness is { IsCompletedSuccessfully: true, Result: { } sure }
        && _session is { Judged: { } judged, Said: { } said } && Sayings.Compare(said, judged.Result).Any(check => check.IsRight is not null) ? sure : null;

    // Whoever notes goes on at once; the note itself is written when the take has an id. Where the take could not be kept it is written without one.
    private static async Task<string?> IdAsync(Task<TakeSaving> keeping)
    {
        await ((Task)keeping).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        return keeping.IsCompletedSuccessfully ? keeping.Result.Record?.Id : null;
    }

    // What was noted while the take ran learns its id.
    private static async Task PassOnAsync(Task<TakeSaving> keeping, TaskCompletionSource<string?> coming) =>
        coming.TrySetResult(await IdAsync(keeping).ConfigureAwait(false));

    // Of all takes of this player, this one among them where it could be kept; a log that cannot be read tells nothing.
    private async Task<SurenessFigure?> SurenessAsync(Task<TakeSaving> keeping, Sureness sure)
    {
        string player = Stand.PlayerName;
        TakeStore store = _store;
        await keeping.ConfigureAwait(false);
        return await Task.Run(() => SurenessFigure.Of(store.List(new TakeFilter(player)).Takes).FirstOrDefault(figure => figure.Sure == sure)).ConfigureAwait(false);
    }

    private void CountSinging()
    {
        double sung = _exercise.Steps
            .Select(step => (step.Task as PlayTask)?.Sung)
            .OfType<AskedPart>()
            .Sum(part => part.Segments.Where(segment => segment.Move != Move.Rest).Sum(segment => segment.ToSeconds - segment.FromSeconds));
        if (Stand.CountSungSeconds(sung))
        {
            Stand.Say(VoiceLoad.Advice);
        }
    }
}
