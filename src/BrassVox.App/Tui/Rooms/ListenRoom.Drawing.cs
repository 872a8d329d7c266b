using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Sessions;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What a listening exercise draws.</summary>
internal sealed partial class ListenRoom
{
    private const int LaneLeft = 14;
    private const int PictureFrom = 40;
    private const int RowsBelow = 13;
    private const int KnowledgeRows = 10;

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        string trial = _session is { } s
            ? s.Phase == ListeningPhase.Finished
                ? string.Create(CultureInfo.InvariantCulture, $"{s.TrialCount} trials")
                : string.Create(CultureInfo.InvariantCulture, $"trial {s.TrialNumber} of {s.TrialCount}")
            : "";
        Stand.DrawHeader(canvas, $"{_exercise.Exercise.Number} {_exercise.Exercise.Name}", trial, $"{Stand.Name(_exercise.Pair.Played)} and {Stand.Name(_exercise.Pair.Sung)}");
        int width = canvas.Width - 4;
        int y = _session?.Phase == ListeningPhase.Finished ? 3 : canvas.Paragraph(2, 3, width, Plan.Question) + 1;
        if (_session is not { } session)
        {
            canvas.Paragraph(2, y, width, "The sound is still opening.");
        }
        else
        {
            y = DrawTrial(canvas, y, session);
            int knowledge = Math.Max(y + 1, canvas.Height - KnowledgeRows);
            if (_isUnheard || (session.LastResult is null && Stand.IsUnheard))
            {
                canvas.Rule(knowledge);
                canvas.Write(0, knowledge + 1, "WHAT YOU CAN TELL");
                canvas.Paragraph(2, knowledge + 3, width, NotCounted);
            }
            else
            {
                DrawKnowledge(canvas, knowledge, session.Result);
            }
        }

        bool moves = Plan.Answer is AdjustAnswer && _session is { Phase: ListeningPhase.Sounding or ListeningPhase.Asking };
        DrawMarkedLine(canvas, (Plan.Answer, moves) switch
        {
            (_, true) => "Left Right S 5 c  , . 1 c  Space tacet  h keys",
            (RateAnswer, _) => "Up Down other  n say the number  r again  Space tacet  h keys",
            _ => "Up Down other  r again  - + level  Space tacet  h keys",
        });
    }

    /// <summary>The sets before this one, the newest first, where a window has the room.</summary>
    private int DrawBefore(Canvas canvas, int y)
    {
        if (canvas.Height < PictureFrom || !_before.IsCompletedSuccessfully)
        {
            return y;
        }

        canvas.Write(2, y + 1, "SETS BEFORE THIS ONE", Ink.Quiet);
        if (_before.Result.Count == 0)
        {
            canvas.Write(2, y + 3, "none yet");
            return y + 4;
        }

        y += 3;
        foreach (ListeningEntry set in _before.Result.Take(Math.Max(0, canvas.Height - RowsBelow - y)))
        {
            string more = (set.ErrorPercent, set.ChanceShare) switch
            {
                ({ } percent, _) => string.Create(CultureInfo.InvariantCulture, $"; your count was off by {Math.Abs(percent):0} % in the median"),
                (_, > 0) => string.Create(CultureInfo.InvariantCulture, $"; guessing gives {100 * set.ChanceShare:0} of 100"),
                _ => "",
            };
            canvas.Write(2, y++, string.Create(CultureInfo.InvariantCulture, $"{set.At.ToLocalTime():ddd yyyy-MM-dd}   {set.Right} of {set.Trials} right{more}"));
        }

        return y;
    }

    /// <summary>What was heard, as a picture, where a window has the room: only after the answer.</summary>
    private int DrawPicture(Canvas canvas, int y, ListeningTrial trial)
    {
        ExerciseStep last = trial.Sounds[^1];
        if (canvas.Height < PictureFrom
            || last.Sounding.FirstOrDefault(part => part.Role == VoiceRole.Played) is not { } played || last.Sounding.FirstOrDefault(part => part.Role == VoiceRole.Sung) is not { } sung)
        {
            return y;
        }

        double playedHz = played.Path.FrequencyHz(0);
        double sungHz = sung.Path.FrequencyHz(0);
        PairScale scale = PairScale.For(canvas.Width, playedHz, sungHz);
        canvas.Write(2, y + 1, trial.Sounds.Count > 1 ? "The last of the sounds, as it began:" : "The sound, as it began:", Ink.Quiet);
        PairPicture.Draw(canvas, y + 3, scale, PairView.OfSilence(playedHz, sungHz, scale, []), Stand.NameNear);
        return y + 3 + PairPicture.Rows;
    }

    // By more than half of the truth a share says little: how many times too fast or too slow does.
    private static string ErrorWords(double percent) => percent switch
    {
        > 50 => string.Create(CultureInfo.InvariantCulture, $"{1 + (percent / 100):0.0} times too fast"),
        <= -100 => "far too slow",
        < -50 => string.Create(CultureInfo.InvariantCulture, $"{1 / (1 + (percent / 100)):0.0} times too slow"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(percent):0} % {(percent < 0 ? "too slow" : "too fast")}"),
    };

    private int DrawTrial(Canvas canvas, int y, ListeningSession session)
    {
        switch (session.Phase)
        {
            case ListeningPhase.Ready:
                return DrawBefore(canvas, canvas.Paragraph(2, y, canvas.Width - 4, $"Nothing sounds until Enter. Listen for: {_exercise.Exercise.ListenFor}"));
            case ListeningPhase.Finished:
                return DrawBefore(canvas, DrawConfusions(canvas, y, session));
            case ListeningPhase.Answered:
                TrialResult result = session.LastResult!;
                if (Plan.Answer is RateAnswer)
                {
                    y = DrawTaps(canvas, y, session, result.Trial);
                }

                string error = result.ErrorPercent is { } percent ? $"     {ErrorWords(percent)}" : "";
                y = canvas.Paragraph(2, y + 1, canvas.Width - 4, $"You: {result.Answer}     It was: {result.Truth}{error}");
                return DrawPicture(canvas, canvas.Paragraph(2, y, canvas.Width - 4, result.Trial.Says), result.Trial);
            default:
                if (Plan.Answer is RateAnswer)
                {
                    return DrawTaps(canvas, y, session, null);
                }

                if (session.Trial.Sounds.Count > 1)
                {
                    y = DrawSounds(canvas, y, session);
                }

                return Plan.Answer switch
                {
                    ChoiceAnswer choice => DrawOptions(canvas, y, choice),
                    AdjustAnswer adjust => DrawMoving(canvas, y, session, adjust),
                    _ => y,
                };
        }
    }

    /// <summary>The whole set at a glance: a row for each thing that sounded, how often it was told and what it was taken for.</summary>
    private static int DrawConfusions(Canvas canvas, int y, ListeningSession session)
    {
        IReadOnlyList<Confusions> lines = Confusions.Of(session.Result.Trials);
        canvas.Write(2, y++, lines.Count == 0 ? "The set is done." : "The set is done. What was told, and what it was taken for:");
        int column = 4 + lines.Select(line => line.Truth.Length).DefaultIfEmpty(0).Max() + 3;
        foreach (Confusions line in lines.Take(Math.Max(0, canvas.Height - KnowledgeRows - 1 - y)))
        {
            canvas.Write(4, y, line.Truth, line.Missed.Count > 0 ? Ink.Marked : Ink.Text);
            canvas.Fitted(column, y, canvas.Width - column - 1, 1, line.Words, Ink.Text);
            y++;
        }

        return y;
    }

    /// <summary>The pair, how far the voice was moved, and the seconds that are left: where it stands still only the ear knows.</summary>
    private int DrawMoving(Canvas canvas, int y, ListeningSession session, AdjustAnswer adjust)
    {
        canvas.Write(2, y, $"{Stand.Name(_exercise.Pair.Played)} held, {Stand.Name(_exercise.Pair.Sung)} moves: Right is higher, Left is lower.");
        canvas.Write(2, y + 1, string.Create(CultureInfo.InvariantCulture, $"You have moved it {session.AdjustedCents:+0;-0;0} c."));
        double cells = (canvas.Width - LaneLeft - 8) / session.TrialLengthSeconds;
        canvas.Write(2, y + 3, "time");
        canvas.Fill(LaneLeft, y + 3, (int)(Math.Clamp(session.TrialSeconds, 0, session.TrialLengthSeconds) * cells), Glyphs.Rail);
        canvas.Write(LaneLeft, y + 4, "0", Ink.Quiet);
        string within = string.Create(CultureInfo.InvariantCulture, $"{adjust.WithinSeconds:0.#} s");
        int limit = LaneLeft + (int)(adjust.WithinSeconds * cells);
        canvas.Put(limit, y + 3, Glyphs.Tie);
        canvas.Write(limit, y + 4, within, Ink.Quiet);
        return y + 5;
    }

    private static int DrawSounds(Canvas canvas, int y, ListeningSession session)
    {
        int x = 2;
        for (int i = 0; i < session.Trial.Sounds.Count; i++)
        {
            bool now = session.SoundIndex == i;
            canvas.Write(x, y, now ? $"{Glyphs.InHand} {i + 1}" : $"  {i + 1}");
            canvas.Fill(x + 4, y, 12, now ? Glyphs.Gap : Glyphs.Asked, Ink.Text);
            x += 20;
        }

        return y + 2;
    }

    private int DrawOptions(Canvas canvas, int y, ChoiceAnswer choice)
    {
        for (int i = 0; i < choice.Options.Count; i++)
        {
            bool marked = i == MarkedIndex;
            if (marked)
            {
                canvas.Put(4, y, Glyphs.Marked, Ink.Marked);
            }

            canvas.Write(6, y++, $"{i + 1} {choice.Options[i]}", marked ? Ink.Marked : Ink.Text);
        }

        return y;
    }

    private static int DrawTaps(Canvas canvas, int y, ListeningSession session, ListeningTrial? truth)
    {
        double seconds = truth is null ? session.TrialLengthSeconds : truth.Sounds.Sum(sound => sound.DurationSeconds);
        double cells = (canvas.Width - LaneLeft - 8) / seconds;
        canvas.Write(2, y, "you tapped");
        foreach (double tap in session.Taps)
        {
            canvas.Put(LaneLeft + (int)(tap * cells), y, Glyphs.Place);
        }

        if (truth is { TrueBeatsPerSecond: { } rate })
        {
            canvas.Write(2, y + 1, "it swelled");
            for (int i = 0; i < seconds * cells; i++)
            {
                double phase = i / cells * rate;
                if (Math.Cos(Math.Tau * phase) > -0.5)
                {
                    canvas.Put(LaneLeft + i, y + 1, Glyphs.Gap);
                }
            }
        }

        for (int second = 0; second <= (int)seconds; second++)
        {
            string text = second == (int)seconds ? $"{second} s" : second.ToString(CultureInfo.InvariantCulture);
            canvas.Write(LaneLeft + (int)(second * cells), y + 2, text, Ink.Quiet);
        }

        if (truth is null && session.Phase == ListeningPhase.Sounding && session.TrialSeconds > 0)
        {
            canvas.Fill(LaneLeft, y + 1, (int)(session.TrialSeconds * cells), Glyphs.Rail);
        }

        return y + 3;
    }

    private void DrawKnowledge(Canvas canvas, int y, ListeningResult result)
    {
        canvas.Rule(y);
        bool rates = Plan.Answer is RateAnswer;
        string trials = result.Trials.Count switch { 0 => "no trial yet", 1 => "after 1 trial", _ => string.Create(CultureInfo.InvariantCulture, $"after {result.Trials.Count} trials") };
        canvas.Write(0, y + 1, (rates, _findsThreshold) switch
        {
            (_, true) => $"WHAT YOU CAN TELL   your threshold, {trials}",
            (true, _) => $"WHAT YOU CAN TELL   how far your count is off, in per cent, {trials}",
            _ => $"WHAT YOU CAN TELL   how many of 100 such trials you would tell, {trials}",
        });
        int next = y + 3;
        if (rates && result.ErrorPercent is { } error)
        {
            KnowledgeScale.Draw(canvas, y + 2, KnowledgeScale.Errors, error, ((RateAnswer)Plan.Answer).WithinPercent, "aim");
            next = y + 5;
        }
        else if (!rates && !_findsThreshold && result.Right is { } right)
        {
            var percent = new Estimate(100 * right.Value, 100 * right.Low, 100 * right.High);
            KnowledgeScale.Draw(canvas, y + 2, KnowledgeScale.Shares, percent, 100 * result.ChanceShare, "guessing");
            next = y + 5;
        }

        canvas.Paragraph(2, next, canvas.Width - 4, result.Trials.Count > 0 ? result.Says : _findsThreshold ? "Each trial follows from your answers." : "Six trials give a first estimate.");
    }
}
