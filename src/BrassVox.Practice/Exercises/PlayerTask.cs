namespace BrassVox.Practice.Exercises;

/// <summary>What is asked of the player in a step.</summary>
public abstract record PlayerTask;
