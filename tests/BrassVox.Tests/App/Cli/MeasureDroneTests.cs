using System.Text.Json;
using BrassVox.Audio.Wav;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

/// <summary>Truth is what was mixed into the files.</summary>
public sealed class MeasureDroneTests : IDisposable
{
    private const int Rate = 8_000;
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-drone-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_drone_that_bleeds_is_said_and_taken_out_and_its_absence_is_said_too()
    {
        float[] drone = WanderingPlayer.Drone(Rate, 4, 116.5409, 12, 0.1);
        float[] bleed = new SimulatedRoom(Rate, 160, 0.1, 7).Heard(drone);
        float[] player = WanderingPlayer.Tone(Rate, 4, 146.8324, 12, 0.8, WanderingPlayer.Rms(bleed), 3);
        string droneFile = Write("drone.wav", drone);
        string mixed = Write("mixed.wav", [.. bleed.Zip(player, (a, b) => a + b)]);
        string alone = Write("alone.wav", player);

        JsonElement with = Measure(mixed, droneFile);
        JsonElement without = Measure(alone, droneFile);

        Assert.True(with.GetProperty("drone").GetProperty("bleeds").GetBoolean());
        Assert.InRange(with.GetProperty("drone").GetProperty("leftDb").GetDouble(), -200, -20);
        Assert.InRange(SungShare(with), 0, 0.1);
        Assert.False(without.GetProperty("drone").GetProperty("bleeds").GetBoolean());
        double withHz = with.GetProperty("played").GetProperty("frequencyHz").GetDouble();
        double withoutHz = without.GetProperty("played").GetProperty("frequencyHz").GetDouble();
        Assert.InRange(1200 * Math.Log2(withHz / withoutHz), -5, 5);
    }

    [Fact]
    public void Sensation_loudness_and_peak_are_added_on_request()
    {
        // 1 asper by definition: 1 kHz, 60 dB, wholly modulated at 70 Hz; here full scale stands for 100 dB.
        string file = Write("rough.wav", CalibratedSounds.Modulated(48_000, 1000, 70, 60), 48_000);
        CommandLineResult result = CommandLine.Run(["measure", file, "--sensation", "--full-scale", "100", "--json"]);
        using JsonDocument json = JsonDocument.Parse(result.Output);
        JsonElement sensation = json.RootElement.GetProperty("sensation");
        Assert.Equal(1.0, sensation.GetProperty("roughnessAsper").GetDouble(), 0.03);
        Assert.Equal(JsonValueKind.Null, sensation.GetProperty("fluctuationVacil").ValueKind);

        // RMS 40 dB under that of a full-scale sine (-3.01), and K-weighting adds 0.7 - 0.69 at 1 kHz.
        Assert.Equal(-43.0, sensation.GetProperty("loudnessLufs").GetDouble(), 0.2);
    }

    private static double SungShare(JsonElement report) =>
        report.GetProperty("sung") is { ValueKind: JsonValueKind.Object } sung ? sung.GetProperty("framesShare").GetDouble() : 0;

    private static JsonElement Measure(string take, string drone)
    {
        CommandLineResult result = CommandLine.Run(
            ["measure", take, "--played", "D3", "--sung", "Bb2", "--drone", drone, "--json"]);
        Assert.Equal(0, result.ExitCode);
        using JsonDocument json = JsonDocument.Parse(result.Output);
        return json.RootElement.Clone();
    }

    private string Write(string name, float[] mono, int rate = Rate)
    {
        string path = Path.Combine(_folder, name);
        Assert.True(WavWriter.TryCreate(path, new WavWriteOptions(rate, 1), out WavWriter? writer, out _));
        using (writer)
        {
            writer.Write(mono);
            writer.Finish();
        }

        return path;
    }
}
