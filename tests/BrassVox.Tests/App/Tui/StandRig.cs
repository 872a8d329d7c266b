using BrassVox.Analysis;
using BrassVox.App;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Rooms;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Section;
using BrassVox.Synthesis;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>The screens with the real engine and tracker, on lines and a clock that a test moves.</summary>
internal sealed class StandRig : IDisposable
{
    private const double TickSeconds = 0.04;
    private static readonly TonePresets Tones = TonePresets.Load(Path.Combine(Repository.Root, "presets", "tones"));
    private static readonly ExerciseLibrary Exercises = ExerciseLibrary.Load(Path.Combine(Repository.Root, "presets", "exercises"));
    private static readonly TimeSpan LongestKeeping = TimeSpan.FromSeconds(20);
    private double _now;
    private double _samplesDue;

    public StandRig(bool hasOutput = true, bool hasInput = true, bool firstRun = false, string? dataFolder = null, bool noColour = false, TimeProvider? time = null)
    {
        Audio = new HandAudio(hasOutput, hasInput);
        Desk = new Desk(Audio, warmUpSeconds: 0);
        Folder = dataFolder ?? Directory.CreateTempSubdirectory("brassvox-stand-").FullName;
        Memory = Memory.Load(Folder);
        if (!firstRun && Memory.IsFirstRun)
        {
            Memory.EndFirstRun();
        }

        Stand = new MusicStand(new StandParts(
            Desk, Audio, Memory, profile => PlayerTones.Engine(Tones, profile), (rate, prior) => new DuetTracker(rate, prior),
            Exercises, Folder, time ?? TimeProvider.System, noColour)
        { CreateSection = (report, slides) => new SectionSound(Tones, report, 1, slides) });
        Settle();
    }

    public HandAudio Audio { get; }

    public Desk Desk { get; }

    public Memory Memory { get; }

    public MusicStand Stand { get; }

    public string Folder { get; }

    /// <summary>What has been heard since the last call of <see cref="Run"/> began.</summary>
    public List<float> Heard { get; } = [];

    /// <summary>Waits for lines that are being opened.</summary>
    public void Settle()
    {
        Desk.Opening.Wait(TestContext.Current.CancellationToken);
        Stand.Tick(_now);
    }

    /// <summary>Presses keys: single characters are letters, anything else the name of a key.</summary>
    public StandRig Press(params string[] keys)
    {
        foreach (string key in keys)
        {
            (Stand.Top as PlayAlongRoom)?.Opening.Wait(TestContext.Current.CancellationToken);
            Stand.Press(key.Length == 1 ? (key[0] == ' ' ? PressKind.Space : key[0]) : Enum.Parse<PressKind>(key));
        }

        return this;
    }

    /// <summary>Lets time pass: sound, microphone, ticks.</summary>
    /// <param name="seconds">How long.</param>
    /// <param name="player">What the microphone hears at a sample counted from now; silence when left out.</param>
    public StandRig Run(double seconds, Func<int, float>? player = null)
    {
        Heard.Clear();
        int given = 0;
        float[] block = new float[HandAudio.PeriodSamples];
        for (double passed = 0; passed < seconds - 1e-9; passed += TickSeconds)
        {
            _samplesDue += TickSeconds * HandAudio.RateHz;
            while (_samplesDue >= HandAudio.PeriodSamples)
            {
                _samplesDue -= HandAudio.PeriodSamples;
                if (Audio.Output is { IsRunning: true } output)
                {
                    Heard.AddRange(output.Pull());
                }

                if (Audio.Input is { IsRunning: true } input)
                {
                    for (int i = 0; i < block.Length; i++)
                    {
                        block[i] = player?.Invoke(given + i) ?? 0;
                    }

                    given += block.Length;
                    input.Give(block);
                }
            }

            _now += TickSeconds;
            Stand.Tick(_now);
        }

        return this;
    }

    /// <summary>The screen as text.</summary>
    public string Screen(int width = 80, int height = 24) => Canvas(width, height).ToString();

    /// <summary>The screen.</summary>
    public Canvas Canvas(int width = 80, int height = 24)
    {
        var canvas = new Canvas(width, height);
        Stand.Draw(canvas);
        return canvas;
    }

    public void Dispose()
    {
        Stand.Close(LongestKeeping);
        Desk.DisposeAsync().AsTask().Wait(TestContext.Current.CancellationToken);

        // What was being read when the test ended may still have the log open, with its files beside it.
        Assert.True(SpinWait.SpinUntil(IsGone, LongestKeeping), $"{Folder} cannot be deleted");
    }

    private bool IsGone()
    {
        try
        {
            Directory.Delete(Folder, recursive: true);
        }
        catch (DirectoryNotFoundException)
        {
            return true;
        }
        catch (IOException)
        {
            return false;
        }

        return !Directory.Exists(Folder);
    }
}
