using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Pictures;

/// <summary>
/// One breath, kept in columns from left to right. It never scrolls; what has been drawn stays until the next breath
/// begins.
/// </summary>
/// <param name="columnsPerSecond">Columns in a second, &gt; 0.</param>
internal sealed class BreathLine(double columnsPerSecond = BreathLine.UsualColumnsPerSecond)
{
    /// <summary>Columns in a second while one watches.</summary>
    public const double UsualColumnsPerSecond = 10;

    private readonly List<BreathColumn> _columns = [];
    private readonly ToneTrail _played = new();
    private readonly ToneTrail _sung = new();
    private int _column;
    private int _fog;
    private int _frames;
    private double? _beats;
    private double? _startSeconds;

    /// <summary>Columns in a second.</summary>
    public double ColumnsPerSecond => columnsPerSecond;

    /// <summary>What has been kept, oldest first.</summary>
    public IReadOnlyList<BreathColumn> Columns => _columns;

    /// <summary>Vibrato of a tone now: rate in Hz and cents to each side; null when there is none.</summary>
    /// <param name="role">The tone.</param>
    public (double RateHz, double Cents)? VibratoOf(VoiceRole role) => Trail(role).Vibrato;

    /// <summary>Begins a new breath.</summary>
    public void Clear()
    {
        _columns.Clear();
        _column = 0;
        _startSeconds = null;
        _played.Clear();
        _sung.Clear();
        Drop();
    }

    /// <summary>Adds a frame; frames come in order of time.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="playedAskedHz">P as asked at that time in Hz, or null when none is asked.</param>
    /// <param name="sungAskedHz">S as asked at that time in Hz, or null when none is asked.</param>
    /// <param name="startSeconds">Where the line begins on the frames' clock; null for the first frame. Earlier frames are passed over.</param>
    public void Add(in AnalysisFrame frame, double? playedAskedHz, double? sungAskedHz, double? startSeconds = null)
    {
        double seconds = frame.CentreSeconds;
        _startSeconds ??= startSeconds ?? seconds;
        if (seconds < _startSeconds)
        {
            return;
        }

        int column = (int)((seconds - _startSeconds.Value) * columnsPerSecond);
        if (column > _column)
        {
            Finish();
            while (_columns.Count < column)
            {
                _columns.Add(default);
            }

            _column = column;
        }

        _frames++;
        if (frame.Separability == Separability.NotSeparable)
        {
            _fog++;
        }

        _beats = frame.BeatRateHz ?? _beats;
        _played.Add(seconds, CentsOf(frame.Played, playedAskedHz));
        _sung.Add(seconds, CentsOf(frame.Sung, sungAskedHz));
    }

    /// <summary>Offset and the larger of wander and drift of one tone, as two short texts; empty in fog or silence.</summary>
    /// <param name="role">The tone.</param>
    public (string Offset, string Unrest) Numbers(VoiceRole role)
    {
        bool played = role == VoiceRole.Played;
        double[] cents = [.. _columns
            .Where(column => !column.IsFog)
            .Select(column => played ? column.PlayedCents : column.SungCents)
            .OfType<double>()];
        if (cents.Length < 3 || (_columns.Count > 0 && _columns[^1].IsFog))
        {
            return ("", "");
        }

        double mean = cents.Average();
        double wander = Math.Sqrt(cents.Sum(c => (c - mean) * (c - mean)) / (cents.Length - 1));
        int third = cents.Length / 3;
        double drift = cents[^third..].Average() - cents[..third].Average();
        string unrest = Math.Abs(drift) > 2 * wander
            ? string.Create(CultureInfo.InvariantCulture, $"drift {drift:+0;-0;0}")
            : string.Create(CultureInfo.InvariantCulture, $"wander {wander:0}");
        return (string.Create(CultureInfo.InvariantCulture, $"{mean:+0;-0;0} c"), unrest);
    }

    private static double? CentsOf(PitchEstimate? estimate, double? askedHz) =>
        estimate is { } tone && askedHz is { } asked ? Cents.Between(asked, tone.FrequencyHz) : null;

    private ToneTrail Trail(VoiceRole role) => role == VoiceRole.Played ? _played : _sung;

    private void Finish()
    {
        bool fog = 2 * _fog > _frames;
        (double? played, bool playedVibrato) = _played.TakeColumn();
        (double? sung, bool sungVibrato) = _sung.TakeColumn();
        _columns.Add(fog
            ? new BreathColumn(null, null, true, _beats)
            : new BreathColumn(played, sung, false, _beats, playedVibrato, sungVibrato));
        Drop();
    }

    private void Drop()
    {
        _fog = 0;
        _frames = 0;
        _beats = null;
    }
}
