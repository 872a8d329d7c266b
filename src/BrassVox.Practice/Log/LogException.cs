namespace BrassVox.Practice.Log;

/// <summary>The log could not be used; <see cref="Failure"/> says why. An <see cref="IOException"/>, so that whoever guards a disk guards the log.</summary>
public sealed class LogException : IOException
{
    /// <summary>An exception for a failure.</summary>
    /// <param name="failure">The failure.</param>
    /// <param name="cause">What the database threw; null when nothing.</param>
    public LogException(LogFailure failure, Exception? cause = null)
        : base(failure.Message, cause) => Failure = failure;

    /// <summary>Why.</summary>
    public LogFailure Failure { get; }
}
