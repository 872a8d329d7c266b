using System.Text.Json.Serialization;

namespace BrassVox.Practice.Judging;

/// <summary>One way a step is judged. Data only; <see cref="TakeJudge"/> applies it.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(OffsetCriterion), "offset")]
[JsonDerivedType(typeof(SpreadCriterion), "spread")]
[JsonDerivedType(typeof(DriftCriterion), "drift")]
[JsonDerivedType(typeof(SteadyCriterion), "steady")]
[JsonDerivedType(typeof(UnbrokenCriterion), "unbroken")]
[JsonDerivedType(typeof(LandingCriterion), "landing")]
[JsonDerivedType(typeof(BeatRateCriterion), "beatRate")]
[JsonDerivedType(typeof(ArrivalCriterion), "arrival")]
[JsonDerivedType(typeof(TogetherCriterion), "together")]
[JsonDerivedType(typeof(ReturnCriterion), "return")]
[JsonDerivedType(typeof(IntervalCriterion), "interval")]
[JsonDerivedType(typeof(BalanceCriterion), "balance")]
[JsonDerivedType(typeof(NotesCriterion), "notes")]
public abstract record Criterion;
