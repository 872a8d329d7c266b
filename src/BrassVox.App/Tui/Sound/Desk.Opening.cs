using BrassVox.Audio;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Sound;

/// <summary>How the desk opens lines, elsewhere, and changes from one to the next.</summary>
internal sealed partial class Desk
{
    // So many late blocks in so many seconds, and the buffer is too short for this machine as it is now.
    private const int TooManyLate = 3;
    private const double LateWithinSeconds = 10;
    private const int MostPeriods = 16;

    private static readonly int UsualPeriods = new LineRequest().Periods;
    private int _periods = UsualPeriods;
    private double? _usualBufferMs;
    private double _countedAt;
    private long _countedBefore;
    private bool _isTooShort;
    private bool _isLengthening;
    private bool _keepsEngine;
    private TakeBlock? _listener;
    private (FillBlock? Fill, int Channel) _click;

    private bool IsOtherDevice => !string.Equals(_deviceId, _openedDeviceId, StringComparison.Ordinal);

    private void BeginOpening(LineOpening? instead = null)
    {
        var request = new LineRequest(_deviceId, Channels: Channels, Periods: _periods);
        Func<IPairEngine> create = _create!;
        _openedDeviceId = _deviceId;
        _opener = Task.Run(async () =>
        {
            if (instead is not null)
            {
                // Some devices can be open once only.
                await instead.Line.DisposeAsync().ConfigureAwait(false);
            }
            else
            {
                WarmUp(create());
            }

            var outlet = new Outlet(_tone);
            return (audio.OpenOutput(request, outlet.Fill), outlet);
        });
    }

    /// <summary>
    /// A machine that is busy with other things keeps the sound waiting, and nothing on its thread can help that: the line is opened anew
    /// with twice the buffer, up to 85 ms. Only in a silence, and never while what is played is handed on to a take.
    /// </summary>
    private void LengthenWhereLate(double nowSeconds)
    {
        if (_opener is not null || _opening is not { IsDevice: true } opening || opening.Line.Completion.IsCompleted)
        {
            return;
        }

        _isTooShort |= opening.Line.DropoutCount - _countedBefore >= TooManyLate && _periods < MostPeriods;
        if (nowSeconds - _countedAt > LateWithinSeconds)
        {
            (_countedAt, _countedBefore) = (nowSeconds, opening.Line.DropoutCount);
        }

        if (_isTooShort && _listener is null && !IsSounding && _engine is { IsSounding: false })
        {
            _periods = Math.Min(MostPeriods, 2 * _periods);
            (_isLost, _isLengthening, _keepsEngine) = (true, true, true);
            BeginOpening(opening);
        }
    }

    private void FinishOpening(Task<(LineOpening Opening, Outlet Outlet)> opener, double nowSeconds)
    {
        LineOpening? old = _opening;
        (bool isLonger, bool keepsEngine) = (_isLengthening, _keepsEngine);
        (_isTooShort, _isLengthening, _keepsEngine) = (false, false, false);
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
        LineFormat granted = _opening.Line.Granted;
        _usualBufferMs = _opening.IsDevice && _periods == UsualPeriods ? granted.BufferMs : _usualBufferMs;
        _outlet.Prepare(granted);
        isLonger &= _opening.IsDevice;
        if (isLonger && keepsEngine && old!.Line.Granted with { Periods = granted.Periods } == granted)
        {
            // What was asked of the engine meanwhile still stands.
            _outlet.Use(_engine);
            _outlet.Tap(_listener);
            _outlet.Click(_click.Fill, _click.Channel);
            if (_replay is { IsDone: false } replay)
            {
                _outlet.Add(replay);
            }
        }
        else
        {
            Adopt(Prepared(granted));
        }

        News = isLonger && granted.BufferMs > old!.Line.Granted.BufferMs ? FormattableString.Invariant($"The machine kept the sound waiting {old.Line.DropoutCount} times: its buffer lasts {granted.BufferMs:0} ms from now on.")
            : isLonger ? News
            : old is not null && _opening.IsDevice ? $"Sound is back on {_opening.Line.Name}. Tacet; Enter goes on."
            : _opening.Message;
        (_countedAt, _countedBefore) = (nowSeconds, 0);
        _ = old?.Line.DisposeAsync().AsTask();
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
