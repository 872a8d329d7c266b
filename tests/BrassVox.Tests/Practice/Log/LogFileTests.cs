using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;
using Xunit;

namespace BrassVox.Tests.Practice.Log;

/// <summary>What is exported comes back without loss.</summary>
public sealed class LogFileTests : IDisposable
{
    private readonly LogRig _rig = new();

    public void Dispose() => _rig.Dispose();

    [Theory]
    [InlineData("log.json")]
    [InlineData("log.csv")]
    public void A_log_goes_out_and_comes_back_without_loss(string name)
    {
        Fill();
        string path = Path.Combine(_rig.Folder, name);
        LogContents before = _rig.Log.Contents();
        LogFile.Write(before, path);
        using var other = new LogRig();
        Assert.Equal(2, other.Log.Import(LogFile.Read(path)));
        Same(before, other.Log.Contents());

        Assert.Equal(0, other.Log.Import(LogFile.Read(path)));
        Same(before, other.Log.Contents());
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(path));
        }
    }

    [Theory]
    [InlineData("log.json", "{ \"formatVersion\": 9, \"takes\": [], \"bodyNotes\": [], \"spells\": [], \"listening\": [] }", "formatVersion")]
    [InlineData("log.json", "{\n\"formatVersion\": 1,\n\"takes\": 7 }", "line 3")]
    [InlineData("log.json", "{ \"formatVersion\": 1, \"takes\": [null], \"bodyNotes\": [], \"spells\": [], \"listening\": [] }", "$.takes[0]")]
    [InlineData("log.csv", "a,b\r\n", "first row")]
    [InlineData("log.txt", "", ".json or .csv")]
    public void Something_else_is_refused_with_its_place(string name, string text, string said)
    {
        string path = Path.Combine(_rig.Folder, name);
        File.WriteAllText(path, text);
        string message = Assert.Throws<InvalidDataException>(() => LogFile.Read(path)).Message;
        Assert.Contains(said, message, StringComparison.Ordinal);
        Assert.Contains(path, message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("spell,yesterday,x,no,,,,1,1,,,,,,,,,,,,,,,\r\n")]
    [InlineData("spell,2026-09-07T17:30:00.000+00:00,x,no,,,,1e400,1,,,,,,,,,,,,,,,\r\n")]
    public void A_broken_row_of_a_table_is_named_and_nothing_is_taken(string row)
    {
        Fill();
        string path = Path.Combine(_rig.Folder, "log.csv");
        LogFile.Write(_rig.Log.Contents(), path);
        File.AppendAllText(path, row);
        Assert.Contains("row 8", Assert.Throws<InvalidDataException>(() => LogFile.Read(path)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("log.json")]
    [InlineData("log.csv")]
    public void A_number_larger_than_any_can_be_is_refused_before_it_is_kept(string name)
    {
        Fill();
        string path = Path.Combine(_rig.Folder, name);
        LogFile.Write(_rig.Log.Contents(), path);
        string text = File.ReadAllText(path);
        string offset = name.EndsWith("csv", StringComparison.Ordinal) ? "\"\"a4Hz\"\":440" : "\"a4Hz\": 440";
        Assert.Contains(offset, text, StringComparison.Ordinal);
        File.WriteAllText(path, text.Replace(offset, offset.Replace("440", "1e400", StringComparison.Ordinal), StringComparison.Ordinal));
        string message = Assert.Throws<InvalidDataException>(() => LogFile.Read(path)).Message;
        Assert.Contains(name == "log.json" ? "$.takes[0].player.a4Hz" : "larger than any can be", message, StringComparison.Ordinal);
    }

    /// <summary>A take that was deleted comes back with the note that was made of it, once.</summary>
    [Fact]
    public void A_note_finds_its_take_again_and_is_not_doubled()
    {
        Fill();
        LogContents before = _rig.Log.Contents();
        _rig.Log.Delete(["a"]);
        Assert.Null(Assert.Single(_rig.Log.Contents().BodyNotes).TakeId);
        Assert.Equal(1, _rig.Log.Import(before));
        Same(before, _rig.Log.Contents());
    }

    /// <summary>What a player expected is written as a word; as a number, as older files have it, it is read, and refused where it means nothing.</summary>
    [Fact]
    public void What_was_expected_is_a_word()
    {
        TakeRecord take = LogRig.Record("a", LogRig.Monday) with { Expected = new Prediction(PredictedFigure.SungCents, -20) };
        _rig.Log.Enter(take);
        string path = Path.Combine(_rig.Folder, "log.json");
        LogFile.Write(_rig.Log.Contents(), path);
        string text = File.ReadAllText(path);
        Assert.Contains("\"figure\": \"sungCents\"", text, StringComparison.Ordinal);
        File.WriteAllText(path, text.Replace("\"sungCents\"", $"{(int)PredictedFigure.SungCents}", StringComparison.Ordinal));
        Assert.Equal(take.Expected, LogFile.Read(path).Takes[0].Expected);
        File.WriteAllText(path, text.Replace("\"sungCents\"", "99", StringComparison.Ordinal));
        Assert.Throws<InvalidDataException>(() => LogFile.Read(path));
    }

    private static void Same(LogContents expected, LogContents got)
    {
        Assert.Equal(expected.Takes.Select(take => take.ToJson(indented: false)), got.Takes.Select(take => take.ToJson(indented: false)));
        Assert.Equal(expected.BodyNotes, got.BodyNotes);
        Assert.Equal(expected.Spells, got.Spells);
        Assert.Equal(expected.Listening, got.Listening);
    }

    private void Fill()
    {
        TakeRecord take = LogRig.Record("a", LogRig.Monday, new SimulatedTone { OffsetCents = 7.123456789 }, player: "Kim, \"the low one\"");
        _rig.Log.Enter(take, take with { Id = "b", MadeAt = LogRig.Monday.AddSeconds(1.5), PlayerName = null, IsSimulated = true, Notes = ["a line\nand another"] });
        _rig.Log.Add(new BodyNote(LogRig.Monday.AddTicks(12345678), "Kim, \"the low one\"", BodyTag.TongueRoot, "a"));
        _rig.Log.Add(new ListeningEntry(LogRig.Monday, "", "count-the-beats", 9, 4, 1.0 / 3, 22.0 / 7));
    }
}
