using System.CommandLine;
using System.Globalization;
using System.Text;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Planning;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox plan</c>: today's minutes as exercises, each with its reason.</summary>
internal static class PlanCommand
{
    public static Command Build()
    {
        var where = new WhereOptions();
        Option<int?> minutes = CommonOptions.WholeOption("--minutes", DayDose.Fewest, DayDose.Most, "Minutes at hand a day, remembered (28 until first said)");
        Option<bool> asPlanned = new("--as-planned") { Description = "Go on as planned although body notes advise to listen only; you decide" };
        Option<bool> json = CommonOptions.Json();
        Command command = new("plan", "Turn the minutes at hand into today's exercises, drawn from what your takes say") { minutes, asPlanned, json };
        where.AddTo(command);
        command.SetAction(arguments =>
        {
            string folder = where.Folder(arguments);
            Player player = where.Player(arguments);
            var store = new TakeStore(folder, TimeProvider.System);
            foreach (string problem in store.List(new TakeFilter(player.Name)).Problems)
            {
                Console.Error.WriteLine($"brassvox: {problem}");
            }

            if (arguments.GetValue(minutes) is { } given)
            {
                store.Log.SetPlanMinutes(player.Name, given);
                Console.Error.WriteLine(FormattableString.Invariant($"brassvox: {given} minutes a day are remembered for the days to come."));
            }

            ExerciseLibrary library = ExerciseLibrary.Load(ExerciseLibrary.ShippedFolder, Path.Combine(folder, "exercises"));
            PracticePlan plan = Planner.Plan(PlanInputs.Read(store.Log, player, library, TimeProvider.System) with
            {
                Choice = arguments.GetValue(asPlanned) ? BodyChoice.AsPlanned : BodyChoice.AsAdvised,
            });
            Console.Out.Write(arguments.GetValue(json) ? TakesReportJson.Text(PlanReport.Of(player, plan)) : Text(player, plan));
            return ExitCode.Done;
        });
        return command;
    }

    private static string Text(Player player, PracticePlan plan)
    {
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{TakesText.Whose(player)}   {plan.Minutes} min a day, 5 days a week");
        text.AppendLine().AppendLine(CultureInfo.InvariantCulture, $"TODAY  {plan.Day.DayOfWeek}");
        int width = plan.Lines.Select(line => line.What(player.NoteNames).Length).DefaultIfEmpty().Max();
        text.Append("  min  ").Append("what".PadRight(width)).AppendLine("  because");
        foreach (PlanLine line in plan.Lines)
        {
            text.AppendLine(string.Create(CultureInfo.InvariantCulture, $"  {line.Minutes,3}  {line.What(player.NoteNames).PadRight(width)}  {line.Because}").TrimEnd());
        }

        text.AppendLine().AppendLine("WEEK      " + string.Concat(plan.Week.Select(day => $"{day.Day.DayOfWeek.ToString()[..3],6}")));
        text.AppendLine("  minutes " + Row(plan.Week, day => day.PlannedMinutes));
        text.AppendLine("  done    " + Row(plan.Week, day => day.DoneMinutes));
        text.AppendLine("  singing " + Row(plan.Week, day => SungMinutes.Whole(60 * day.SungMinutes)));
        if (plan.Body is { } body)
        {
            text.AppendLine().AppendLine("BODY   " + body);
        }

        if (plan.Order.Length > 0)
        {
            text.AppendLine().AppendLine("ORDER  " + plan.Order);
        }

        return text.ToString();
    }

    private static string Row(IReadOnlyList<PlanDay> week, Func<PlanDay, double> value) => string.Concat(week.Select(day =>
        value(day) > 0 ? string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(value(day)),6:0}") : "     -"));
}
