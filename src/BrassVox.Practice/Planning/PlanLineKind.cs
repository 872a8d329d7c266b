namespace BrassVox.Practice.Planning;

/// <summary>What a line of the plan is for.</summary>
public enum PlanLineKind
{
    /// <summary>Listening; neither lips nor voice.</summary>
    Hearing,

    /// <summary>Voice and lips, apart, then together.</summary>
    WarmUp,

    /// <summary>Playing and singing.</summary>
    Playing,

    /// <summary>Neither lips nor voice nor ears.</summary>
    Rest,

    /// <summary>Looking back at takes.</summary>
    Review,
}
