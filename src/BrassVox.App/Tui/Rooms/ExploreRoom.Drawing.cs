using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What Explore draws.</summary>
internal sealed partial class ExploreRoom
{
    private const int PictureTop = 2;
    private const int PairRow = 12;
    private const int SwellRow = 13;
    private const int PanelTop = 14;
    private const int AllPanelsFrom = 44;
    private const int FarDoubledFromWidth = 160;
    private const int SignsColumn = 76;
    private const double FogWithinHz = 6.25;
    private const double LowGrainBelowHz = 80;

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        if (_scale is null || _scaleWidth != canvas.Width || !Stand.Desk.IsSounding)
        {
            _scaleWidth = canvas.Width;
            _scale = PairScale.For(canvas.Width, _pair.DeclaredHz(VoiceRole.Played), _pair.DeclaredHz(VoiceRole.Sung));
        }
        else
        {
            _scale = _scale with { PlayedHz = _pair.DeclaredHz(VoiceRole.Played) };
        }

        if (_spectrum is null || _numbersAt < 0)
        {
            ReadNumbers();
        }

        PairSpectrum spectrum = _spectrum!;
        string[] heading = Heading();
        Stand.DrawHeader(canvas, Stand.HeaderHolds(canvas, heading) ? heading : [heading[0], heading[^1], .. heading[1..^1]]);
        PairPicture.Draw(canvas, PictureTop, _scale, spectrum, Stand.NameNear);
        if (_held is { } held)
        {
            HeldDifference.Draw(canvas, PictureTop + PairPicture.Rows - 1, _scale, spectrum, held, _inHand);
        }

        canvas.Rule(PictureTop + PairPicture.Rows);
        PartialMeeting? leading = PairWords.Leading(_meetings);
        canvas.Write(0, PairRow, $"PAIR  {PairLine(spectrum, canvas.Width - 6)}");
        DrawSwell(canvas, spectrum, leading);
        DrawPanels(canvas);
        canvas.Write(0, canvas.Height - 2, Hint(leading));
        DrawMarkedLine(canvas, "Left Right 5 c  p s in hand  a panel  Up Down semitone  m mute  Space tacet  h keys");
    }

    private string[] Heading()
    {
        string system = string.Create(CultureInfo.InvariantCulture, $"{_pair.TuningName} A4 {_pair.A4Hz:0.##}");
        string frozen = _frozen ? "frozen" : "";
        if (_live.IsOn)
        {
            return [$"you play {Described(VoiceRole.Played)}{BoundFor(VoiceRole.Played)}, you sing {Described(VoiceRole.Sung)}{BoundFor(VoiceRole.Sung)}", frozen, system];
        }

        string coupling = _pair.Coupling == 0 ? "separate" : string.Create(CultureInfo.InvariantCulture, $"coupled {100 * _pair.Coupling:0} %");
        return [$"{Described(VoiceRole.Played)} played{BoundFor(VoiceRole.Played)}, {Described(VoiceRole.Sung)} sung{BoundFor(VoiceRole.Sung)}", coupling, frozen, system];
    }

    private string PairLine(PairSpectrum spectrum, int width)
    {
        if (_live is { IsOn: true, Reading: null })
        {
            return "nothing heard yet";
        }

        if (!spectrum.SungKnown)
        {
            return _live.Reading?.BeatRateHz is { } rate
                ? $"not separable   beats {PairPicture.Rate(rate)} /s"
                : "not separable";
        }

        double cents = Cents.Between(spectrum.PlayedHz, spectrum.SungHz);
        string interval = PairWords.Interval(cents, _pair.TuningName);
        string beats = PairWords.Beats(_meetings);
        string whole = $"{interval}   {beats}";
        string[] shorter = [whole, $"{interval}   {PairWords.InShort(_meetings)}"];
        return Array.Find(shorter, text => text.Length <= width) ?? $"{interval[..interval.IndexOf(" (", StringComparison.Ordinal)]}   {PairWords.InShort(_meetings)}";
    }

    private void DrawSwell(Canvas canvas, PairSpectrum spectrum, PartialMeeting? leading)
    {
        if (_live.Reading is { } reading)
        {
            PartialMeeting? swelling = reading.BeatRateHz is { } rate
                ? new PartialMeeting(1, 1, rate, rate > BeatingPairs.BeatingUpToHz ? Meeting.Grain : Meeting.Beating)
                : null;
            SwellBar.Draw(canvas, SwellRow, swelling, SwellBar.Envelope(0, -3, _swellCycles));
        }
        else if (!Stand.Desk.IsSounding || leading is not { } meeting)
        {
            SwellBar.Draw(canvas, SwellRow, null, 0);
        }
        else
        {
            double played = spectrum.PlayedDb[meeting.Played - 1];
            double sung = spectrum.SungDb[meeting.Sung - 1];
            double cycles = meeting.Kind == Meeting.Still ? 0 : _swellCycles;
            SwellBar.Draw(canvas, SwellRow, meeting, SwellBar.Envelope(played, sung, cycles));
        }
    }

    private void DrawPanels(Canvas canvas)
    {
        int bottom = canvas.Height - 2;
        _holdsAllPanels = canvas.Height >= AllPanelsFrom;
        if (!_holdsAllPanels)
        {
            DrawPanel(canvas, PanelTop, bottom - PanelTop, _panel);
            return;
        }

        if (_panel == Panel.Far)
        {
            // Twice as large, with the list below: what is read from where one plays.
            int size = canvas.Width >= FarDoubledFromWidth ? 2 : 1;
            DrawFar(canvas, PanelTop + 1, size);
            int below = PanelTop + 3 + FarPanel.RowsFor(size);
            DrawPanel(canvas, below, bottom - below, Panel.Parts);
            return;
        }

        int rows = _live.IsOn ? BreathPanel.RowsFor(5) : 1;
        DrawPanel(canvas, PanelTop + 1, ApproachPanel.Rows, Panel.Approach);
        int next = PanelTop + 2 + ApproachPanel.Rows;
        DrawPanel(canvas, next, rows, Panel.Breath);
        next += rows + 1;
        DrawPanel(canvas, next, bottom - next, Panel.Parts);
        if (canvas.Width >= SignsColumn + SignWords.Width)
        {
            SignWords.Draw(canvas, SignsColumn, next, bottom - 1);
        }
    }

    private void DrawPanel(Canvas canvas, int top, int rows, Panel panel)
    {
        switch (panel)
        {
            case Panel.Parts:
                PartsPanel.Draw(canvas, top, rows, [.. PartRows().Select(row => row.Row)], _pair.A4Hz, Stand.Name);
                break;
            case Panel.Approach:
                NearestStill near = NearestStill.Of(NowHz(VoiceRole.Played), NowHz(VoiceRole.Sung));
                ApproachPanel.Draw(canvas, top, near, string.Create(
                    CultureInfo.InvariantCulture, $"{Glyphs.SungStrong} sung  {NowHz(VoiceRole.Sung):0.00} Hz  {Described(VoiceRole.Sung)}"));
                break;
            case Panel.Far:
                DrawFar(canvas, top, 1);
                break;
            default:
                if (_live.IsOn || canvas.Height < AllPanelsFrom)
                {
                    BreathPanel.Draw(canvas, top, rows >= BreathPanel.RowsFor(5) ? 5 : 3, _live.Breath, RoleInHand);
                    _live.Columns = BreathPanel.ColumnsFor(canvas.Width);
                }
                else
                {
                    canvas.Write(0, top, "BREATH   i turns the microphone on: both your tones against the pair, one breath at a time.", Ink.Quiet);
                }

                break;
        }
    }

    /// <summary>Offsets from what is asked while the microphone listens; otherwise what has been set.</summary>
    private void DrawFar(Canvas canvas, int top, int size)
    {
        static string Whole(double cents) => cents.ToString("+0;-0;0", CultureInfo.InvariantCulture);
        string? played = Whole(_pair.PlayedCents);
        string? sung = Whole(_pair.SungCents);
        string beats = PairWords.Leading(_meetings) is { } leading ? leading.Kind == Meeting.Still ? "=" : PairPicture.Rate(leading.RateHz) : "";
        if (_live.IsOn)
        {
            played = _live.Reading is { } heard ? Whole(Cents.Between(_pair.PlayedHz, heard.PlayedHz)) : null;
            sung = _live.Reading is { SungHz: { } sungHz } ? Whole(Cents.Between(_pair.SungHz, sungHz)) : null;
            beats = _live.Reading?.BeatRateHz is { } rate ? PairPicture.Rate(rate) : "";
        }

        FarPanel.Draw(canvas, top, played, sung, _live.IsFog, beats, _live.IsOn ? "cents off" : "cents as set", size);
    }

    private List<(int Index, PartRow Row)> PartRows()
    {
        PairSpectrum? spectrum = _spectrum;
        bool sounding = Stand.Desk.IsSounding;
        double playedHz = NowHz(VoiceRole.Played);
        double sungHz = NowHz(VoiceRole.Sung);
        var rows = new List<(int Index, PartRow Row)>();
        foreach (PairPart part in Parts)
        {
            double hz = (part.Played * playedHz) + (part.Sung * sungHz);
            if (hz < 5)
            {
                continue;
            }

            double? level = sounding ? Stand.Desk.Engine!.Read(part.Index).LevelDbfs : null;
            bool touched = _mix.State(part.Index).Length > 0 || part.Index == _inHand;
            bool worth = part.Index < 2 || touched
                || (level is { } db ? spectrum?.IsDrawn(db) == true : Math.Abs(part.Played) + Math.Abs(part.Sung) <= 3);
            if (!worth)
            {
                continue;
            }

            Ink ink = part.Index switch
            {
                0 => Ink.Played,
                1 => Ink.Sung,
                _ => Ink.Resultant,
            };
            string state = _mix.State(part.Index);
            bool inHand = part.Index == _inHand;
            string shown = inHand ? state.Length > 0 ? $"in hand, {state}" : "in hand" : state;
            bool strong = level is { } l && spectrum?.IsStrong(l) == true;
            shown = shown.Length > 0 || hz < NearestNote.LowestPitchHz || Stand.IsCarried(hz, playedHz) ? shown : "not carried";
            rows.Add((part.Index, new PartRow(part.Name, ink, hz, level, strong, shown, inHand)));
        }

        return [.. rows.Take(2), .. rows.Skip(2).OrderByDescending(row => row.Row.LevelDb ?? -Math.Abs(row.Row.FrequencyHz - playedHz))];
    }

    private string Hint(PartialMeeting? leading)
    {
        if (_live is { IsOn: true, IsFog: true })
        {
            return $"{Glyphs.Fog} fog: too near to be told apart. The beats are known, the pitch of S is not.";
        }

        foreach (VoiceRole role in Enum.GetValues<VoiceRole>())
        {
            if (_live.IsOn && _live.Breath.VibratoOf(role) is { } vibrato)
            {
                return string.Create(
                    CultureInfo.InvariantCulture,
                    $"{(role == VoiceRole.Played ? "P" : "S")}: vibrato {vibrato.RateHz:0.0} /s, {vibrato.Cents:0} c each way, drawn ~ at its centre. No fault.");
            }
        }

        if (!_live.IsOn && !Stand.Profile.CanSing(_pair.Sung))
        {
            return $"{Stand.Name(_pair.Sung)} lies outside your voice, {Stand.Name(Stand.Profile.LowestSung)} to {Stand.Name(Stand.Profile.HighestSung)}: hear it, do not force it. v moves S.";
        }

        double nearest = Math.Round(NowHz(VoiceRole.Sung) / NowHz(VoiceRole.Played)) * NowHz(VoiceRole.Played);
        if (nearest > 0 && Math.Abs(NowHz(VoiceRole.Sung) - nearest) < FogWithinHz)
        {
            return "From a microphone this pair is fog: each line of S lies on a line of P.";
        }

        if (NowHz(VoiceRole.Played) < LowGrainBelowHz && _meetings.FirstOrDefault(meeting => meeting.Kind == Meeting.Grain) is { RateHz: > 0 } grain)
        {
            // An octave higher the two lie twice as far apart: help only where that takes them out of each other's band.
            bool parts = BeatingPairs.Classify(2 * grain.Played * NowHz(VoiceRole.Played), 2 * grain.Sung * NowHz(VoiceRole.Sung)) == Meeting.Apart;
            return $"So low the pair is grainy: {PairPicture.Rate(grain.RateHz)} a second{(parts ? ". Try it an octave higher." : ", too fast to count.")}";
        }

        if (_held is not null)
        {
            return $"Laid under: {_heldName}. The dB row is now against then; z takes it away.";
        }

        return leading is { Kind: Meeting.Beating }
            ? "Move S until the beats slow and stand still. Faster means the wrong way."
            : "";
    }
}
