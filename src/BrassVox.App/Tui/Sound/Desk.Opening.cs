using BrassVox.Audio;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Sound;

/// <summary>How the desk opens lines, elsewhere, and changes from one to the next.</summary>
internal sealed partial class Desk
{
    private bool IsOtherDevice => !string.Equals(_deviceId, _openedDeviceId, StringComparison.Ordinal);

    private void BeginOpening()
    {
        string? device = _deviceId;
        Func<IPairEngine> create = _create!;
        int channels = Channels;
        _openedDeviceId = device;
        _opener = Task.Run(() =>
        {
            WarmUp(create());
            var outlet = new Outlet(_tone);
            return (audio.OpenOutput(new LineRequest(device, Channels: channels), outlet.Fill), outlet);
        });
    }

    private void FinishOpening(Task<(LineOpening Opening, Outlet Outlet)> opener, double nowSeconds)
    {
        LineOpening? old = _opening;
        if (!opener.IsCompletedSuccessfully)
        {
            News = $"Sound cannot be opened: {opener.Exception?.GetBaseException().Message} Screens work on; Set-up tries again.";
            _retryAt = nowSeconds + 1;
            return;
        }

        _isLost &= !opener.Result.Opening.IsDevice;
        if (old is { IsDevice: false } && opener.Result.Opening is { IsDevice: false } none && !old.Line.Completion.IsCompleted)
        {
            // Nothing found again: the silent line goes on undisturbed.
            _ = none.Line.DisposeAsync().AsTask();
            News = _isAskedAgain ? none.Message : News;
            _isAskedAgain = false;
            return;
        }

        _isAskedAgain = false;
        // The line before may call back until it is closed: it keeps its own outlet, and no engine.
        _outlet?.Use(null);
        (_opening, _outlet) = opener.Result;
        if (old is not null)
        {
            _ = old.Line.DisposeAsync().AsTask();
            News = _opening.IsDevice ? $"Sound is back on {_opening.Line.Name}. Tacet; Enter goes on." : _opening.Message;
        }
        else
        {
            News = _opening.Message;
        }

        LineFormat granted = _opening.Line.Granted;
        _outlet.Prepare(granted);
        Adopt(Prepared(granted));
        _opening.Line.Start();
    }

    private void LoseDevice(LineOpening opening, double nowSeconds)
    {
        _isLost = true;
        if (IsSounding || _retryAt == 0)
        {
            News = $"{opening.Line.FaultMessage ?? $"The sound device {opening.Line.Name} went away."} Opening it again every second.";
            _asked = false;
            _hushed = true;
        }

        if (nowSeconds >= _retryAt)
        {
            _retryAt = nowSeconds + 1;
            BeginOpening();
        }
    }

    private IPairEngine Prepared(LineFormat granted)
    {
        IPairEngine engine = _create!();
        engine.Prepare(new RenderFormat(granted.SampleRateHz, granted.PeriodSamples));
        return engine;
    }

    private void Adopt(IPairEngine engine)
    {
        _engine = engine;
        _asked = false;
        SetLevel(LevelDb);
        _outlet!.Use(engine);
    }

    private void WarmUp(IPairEngine engine)
    {
        engine.Prepare(new RenderFormat(48000, 256));
        engine.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(116.54)));
        engine.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(174.61)));
        engine.TryPost(PairEvent.Coupling(0.5f));
        engine.TryPost(PairEvent.Start());
        float[] block = new float[256];
        for (int i = 0; i < warmUpSeconds * 48000 / block.Length; i++)
        {
            engine.Render(block);
        }
    }
}
