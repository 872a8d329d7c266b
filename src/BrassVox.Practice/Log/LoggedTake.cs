using BrassVox.Practice.Takes;

namespace BrassVox.Practice.Log;

/// <summary>A take as the log knows it.</summary>
/// <param name="Take">The take without its frames.</param>
/// <param name="Body">Body tags noted of it.</param>
public sealed record LoggedTake(TakeRecord Take, IReadOnlyList<BodyTag> Body)
{
    /// <summary>True when its pitches may count: something reached the microphone, and no drone bled into it beyond what could be taken out.</summary>
    public bool IsScored => WhyNotScored is null;

    /// <summary>True when it says how it went: scored, and as asked or not. Others count neither for nor against the player.</summary>
    public bool IsJudged => IsScored && Take.Result.AsAsked is not null;

    /// <summary>True when it counts in the error map: judged, and no passage, whose many pairs would all lie under its first one.</summary>
    public bool IsMapped => IsJudged && !Take.IsOfPassage;

    /// <summary>Why its pitches do not count, in a few words; null when they do.</summary>
    public string? WhyNotScored => LeftOut.Of(this) switch
    {
        WhyLeftOut.DroneBleeds => "drone bleeds in",
        WhyLeftOut.NothingCameIn => "nothing came in",
        _ => null,
    };

    /// <summary>Why it could not be judged although it is scored, in a word or two; null when it could, and when it is not scored.</summary>
    public string? WhyNotJudged => LeftOut.NotJudged(LeftOut.Of(this));
}
