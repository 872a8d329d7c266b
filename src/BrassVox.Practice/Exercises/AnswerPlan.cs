using System.Text.Json.Serialization;

namespace BrassVox.Practice.Exercises;

/// <summary>What a listener answers with.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "kind")]
[JsonDerivedType(typeof(ChoiceAnswer), "choice")]
[JsonDerivedType(typeof(RateAnswer), "rate")]
[JsonDerivedType(typeof(AdjustAnswer), "adjust")]
public abstract record AnswerPlan;
