using System.Runtime.InteropServices;

namespace BrassVox.App.Cli;

/// <summary>Ctrl-C and SIGTERM as a request to a command that has something to tidy up first.</summary>
internal sealed class EndAsked : IDisposable
{
    private readonly CancellationTokenSource _asked = new();
    private readonly PosixSignalRegistration _interrupted;
    private readonly PosixSignalRegistration _terminated;

    public EndAsked()
    {
        _interrupted = PosixSignalRegistration.Create(PosixSignal.SIGINT, context => End(context, ExitCode.Interrupted));
        _terminated = PosixSignalRegistration.Create(PosixSignal.SIGTERM, context => End(context, ExitCode.Terminated));
    }

    /// <summary>Raised once the end is asked for.</summary>
    public CancellationToken Token => _asked.Token;

    /// <summary>What the shell is told then.</summary>
    public int Code { get; private set; } = ExitCode.Interrupted;

    public void Dispose()
    {
        _interrupted.Dispose();
        _terminated.Dispose();
        _asked.Dispose();
    }

    private void End(PosixSignalContext context, int code)
    {
        context.Cancel = true;
        Code = code;
        _asked.Cancel();
    }
}
