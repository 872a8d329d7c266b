using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;

namespace BrassVox.App.Cli;

/// <summary>A listening exercise as questions and answers, line by line.</summary>
internal sealed class ListeningPrompts(ListeningSession session, TextReader input, TextWriter output, Func<bool> waitWhileSoundGoes)
{
    private bool _left;

    /// <summary>Runs all trials, or until the input ends or says q.</summary>
    /// <returns>What can be told.</returns>
    public ListeningResult Run()
    {
        while (!_left)
        {
            int next = (session.LastResult?.Trial.Number ?? 0) + 1;
            if (next > session.TrialCount)
            {
                break;
            }

            output.WriteLine($"Trial {next} of {session.TrialCount}. Enter sounds it; q leaves.");
            if (input.ReadLine() is not { } line || IsLeave(line))
            {
                break;
            }

            session.Next();
            if (session.Phase == ListeningPhase.Sounding)
            {
                Ask();
            }
        }

        session.Tacet();
        return session.Result;
    }

    private void Ask()
    {
        bool isAdjusting = session.AnswerPlan is AdjustAnswer;
        output.WriteLine(session.Trial.Question);
        output.WriteLine(session.AnswerPlan switch
        {
            ChoiceAnswer => string.Join("   ", session.Trial.Options.Select((option, i) => $"{i + 1} {option}")) + "   r hear again   q leave",
            RateAnswer => "Swells in a second, as in 1.8   r hear again   q leave",
            _ => "Cents to move the voice, as in -5; an empty line when it stands still   q leave",
        });
        while (session.Phase is ListeningPhase.Sounding or ListeningPhase.Asking)
        {
            if (!isAdjusting)
            {
                WaitForTheEnd();
            }

            if (_left || input.ReadLine() is not { } line || IsLeave(line))
            {
                _left = true;
                return;
            }

            session.Poll();
            if (!TakeAnswer(line.Trim()))
            {
                output.WriteLine($"\"{line.Trim()}\" is no answer here.");
            }
        }

        TrialResult result = session.LastResult!;
        output.WriteLine($"{(result.Right ? "Yes." : "No.")} You: {result.Answer}. It was: {result.Truth}. {result.Trial.Says}");
        output.WriteLine();
    }

    private bool TakeAnswer(string answer)
    {
        if (string.Equals(answer, "r", StringComparison.OrdinalIgnoreCase))
        {
            session.Again();
            return true;
        }

        switch (session.AnswerPlan)
        {
            case ChoiceAnswer choice:
                int option = int.TryParse(answer, NumberStyles.None, CultureInfo.InvariantCulture, out int number)
                    ? number - 1
                    : choice.Options.ToList().FindIndex(name => string.Equals(name, answer, StringComparison.OrdinalIgnoreCase));
                if (option < 0 || option >= choice.Options.Count)
                {
                    return false;
                }

                session.Answer(option);
                return true;
            case RateAnswer when TryNumber(answer, out double rate) && rate >= 0:
                session.AnswerRate(rate);
                return true;
            case AdjustAnswer when answer.Length == 0:
                session.AnswerStill();
                return true;
            case AdjustAnswer when TryNumber(answer, out double cents) && Math.Abs(cents) <= 1200:
                session.Adjust(cents);
                return true;
            default:
                return false;
        }
    }

    private void WaitForTheEnd()
    {
        for (session.Poll(); session.Phase == ListeningPhase.Sounding && !_left; session.Poll())
        {
            _left = !waitWhileSoundGoes();
        }
    }

    private static bool TryNumber(string text, out double number) =>
        double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number);

    private static bool IsLeave(string line) => string.Equals(line.Trim(), "q", StringComparison.OrdinalIgnoreCase);
}
