using BrassVox.Practice.Sessions;

namespace BrassVox.App.Cli;

/// <summary>What <c>measure --drone</c> prints of the drone.</summary>
internal sealed record DroneReport(string File, bool Bleeds, double ShareDb, double? LeftDb)
{
    public static DroneReport Of(string file, DroneInTake found) => new(file, found.Bleeds, found.ShareDb, found.LeftDb);

    public string ToText() => new DroneInTake(Bleeds, ShareDb, LeftDb).ToString();
}
