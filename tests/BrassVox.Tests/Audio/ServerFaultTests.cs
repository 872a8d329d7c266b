using BrassVox.Audio;
using Xunit;

namespace BrassVox.Tests.Audio;

/// <summary>The real back end over a real sound server that is killed, restarted and frozen.</summary>
[Collection(SoundServer.Name)]
[Trait("Needs", "SoundServer")]
public sealed class ServerFaultTests
{
    private static readonly TimeSpan Promised = TimeSpan.FromSeconds(2);

    [Fact]
    public async Task A_server_that_is_killed_loses_both_lines_and_one_that_is_back_is_found_again()
    {
        SoundServer.Need();
        var system = new AudioSystem();
        (IAudioLine playing, Task played) = OpenOutput(system);
        (IAudioLine listening, Task heard) = OpenInput(system);
        try
        {
            await Task.WhenAll(played, heard).WaitAsync(TimeSpan.FromSeconds(5), TestContext.Current.CancellationToken);
            SoundServer.Kill();
            Assert.Equal(LineEnd.DeviceLost, await playing.Completion.WaitAsync(Promised, TestContext.Current.CancellationToken));
            Assert.Equal(LineEnd.DeviceLost, await listening.Completion.WaitAsync(Promised, TestContext.Current.CancellationToken));
            Assert.StartsWith("\"System default\" ", playing.FaultMessage, StringComparison.Ordinal);
            await playing.StopAsync();
            await listening.StopAsync();

            LineOpening without = system.OpenOutput(new LineRequest(), block => block.Clear());
            await using IAudioLine silent = without.Line;
            Assert.False(without.IsDevice);
            Assert.StartsWith("no playback device could be opened: ", without.Message, StringComparison.Ordinal);
            Assert.Empty(system.ListDevices());
        }
        finally
        {
            SoundServer.Restart();
        }

        await PlaysAgain(system);
        Assert.Contains(system.ListDevices(), device => device is { IsDefault: true, IsInput: true, IsOutput: true });
    }

    [Fact]
    public async Task A_server_that_freezes_loses_the_line_and_hangs_neither_stop_nor_the_next_opening()
    {
        SoundServer.Need();
        var system = new AudioSystem();
        (IAudioLine playing, Task played) = OpenOutput(system);
        await played.WaitAsync(TimeSpan.FromSeconds(5), TestContext.Current.CancellationToken);
        SoundServer.Freeze();
        try
        {
            Assert.Equal(LineEnd.DeviceLost, await playing.Completion.WaitAsync(Promised, TestContext.Current.CancellationToken));
            Assert.StartsWith("\"System default\" has stopped answering", playing.FaultMessage, StringComparison.Ordinal);
            await playing.StopAsync().WaitAsync(Promised, TestContext.Current.CancellationToken);
            LineOpening without = await Task.Run(() => system.OpenOutput(new LineRequest(), block => block.Clear()), TestContext.Current.CancellationToken)
                .WaitAsync(TimeSpan.FromSeconds(5), TestContext.Current.CancellationToken);
            await using IAudioLine silent = without.Line;
            Assert.False(without.IsDevice);
        }
        finally
        {
            SoundServer.Thaw();
        }

        await PlaysAgain(system);
    }

    private static async Task PlaysAgain(AudioSystem system)
    {
        using var turn = new PeriodicTimer(TimeSpan.FromMilliseconds(100));
        for (int attempt = 0; attempt < 100; attempt++)
        {
            await turn.WaitForNextTickAsync(TestContext.Current.CancellationToken);
            var played = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            LineOpening opening = system.OpenOutput(new LineRequest(), block =>
            {
                block.Clear();
                played.TrySetResult();
            });
            await using IAudioLine line = opening.Line;
            if (!opening.IsDevice)
                continue;
            line.Start();
            await played.Task.WaitAsync(Promised, TestContext.Current.CancellationToken);
            await line.StopAsync();
            Assert.Equal(LineEnd.Stopped, await line.Completion);
            return;
        }

        Assert.Fail("the server was back for 10 s and could not be opened");
    }

    private static (IAudioLine Line, Task Running) OpenOutput(AudioSystem system)
    {
        int blocks = 0;
        var running = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        LineOpening opening = system.OpenOutput(new LineRequest(), block =>
        {
            block.Clear();
            if (++blocks == 20)
                running.TrySetResult();
        });
        Assert.True(opening.IsDevice, opening.Message);
        opening.Line.Start();
        return (opening.Line, running.Task);
    }

    private static (IAudioLine Line, Task Running) OpenInput(AudioSystem system)
    {
        int blocks = 0;
        var running = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        LineOpening opening = system.OpenInput(new LineRequest(), _ =>
        {
            if (++blocks == 20)
                running.TrySetResult();
        });
        Assert.True(opening.IsDevice, opening.Message);
        opening.Line.Start();
        return (opening.Line, running.Task);
    }
}
