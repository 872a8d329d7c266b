using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Files;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Scenes;
using BrassVox.Synthesis;
using BrassVox.Synthesis.Files;
using BrassVox.Synthesis.Living;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Fuzz;

/// <summary>JSON files that people write or change, spoiled as trees and as text.</summary>
internal abstract class DataReader(string name, int share, IReadOnlyList<string> seeds) : FuzzReader(name, share)
{
    // The words and keys of the files themselves, so that what is exchanged has a chance to fit.
    private readonly string[] _dictionary =
    [
        .. seeds.SelectMany(seed => seed.Split(['"', ',', ':', '{', '}', '[', ']', '\n', ' '], StringSplitOptions.RemoveEmptyEntries)).Where(word => word.Length < 30).Distinct().Order(StringComparer.Ordinal).Take(600),
    ];

    public override byte[] Make(Random random)
    {
        string text = Mutations.Json(random, random.Pick(seeds), _dictionary);
        byte[] bytes = Utf8(text);
        return random.Chance(10) ? Mutations.Bytes(random, bytes, Utf8(random.Pick(seeds))) : Mutations.Swollen(random, bytes);
    }

    protected static IReadOnlyList<string> Files(params string[] folder) =>
        [.. Directory.GetFiles(Path.Combine([AppContext.BaseDirectory, "presets", .. folder]), "*.json").Order(StringComparer.Ordinal).Select(File.ReadAllText)];

    /// <summary>Runs what refuses a file by <see cref="InvalidDataException"/>.</summary>
    protected static bool Reads(Action read)
    {
        try
        {
            read();
            return true;
        }
        catch (InvalidDataException told)
        {
            IsOneLine(told.Message);
            return false;
        }
    }

    protected static string Put(string folder, string name, byte[] input)
    {
        string path = Path.Combine(folder, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, input);
        return path;
    }
}

/// <summary>Exercises; what is read is given notes for a low and a high player.</summary>
internal sealed class ExerciseReader() : DataReader("exercise", 12, Files("exercises"))
{
    private static readonly PlayerProfile[] Players =
        [PlayerProfile.Usual(Instrument.Tuba, VoiceKind.Low), PlayerProfile.Usual(Instrument.Trumpet, VoiceKind.High)];

    public override bool Read(byte[] input, string folder)
    {
        ExerciseLoad load = ExerciseFile.Parse(input, "x.json");
        if (load.Exercise is not { } exercise)
        {
            IsOneLine(load.Problem?.ToString());
            return false;
        }

        foreach (PlayerProfile player in Players)
        {
            Resolution resolution = ExerciseResolver.Resolve(exercise, player);
            Holds(resolution.Resolved is null != resolution.WhyNot is null, "it has notes or a reason");
        }

        return true;
    }
}

/// <summary>Scenes.</summary>
internal sealed class SceneReader() : DataReader("scene", 16, Files("scenes"))
{
    public override bool Read(byte[] input, string folder)
    {
        FileLoad<Scene> load = SceneFile.Parse(input, "x.json");
        if (load.Value is null)
        {
            IsOneLine(load.Problem?.ToString());
        }

        return load.Value is not null;
    }
}

/// <summary>Instruments; what is read is played for a moment.</summary>
internal sealed class BrassReader() : DataReader("brass", 6, Files("tones", "brass"))
{
    private static readonly VoicePreset Voice = TonePresets.Load(Path.Combine(AppContext.BaseDirectory, "presets", "tones")).Voices[0];

    public override bool Read(byte[] input, string folder) => Reads(() =>
        Tones.Sound(PresetJson.Read(Put(folder, "brass.json", input), TonePresetJson.Default.BrassPreset, TonePresetChecks.Check), Voice));
}

/// <summary>Voices; what is read sings for a moment.</summary>
internal sealed class VoiceReader() : DataReader("voice", 6, Files("tones", "voices"))
{
    private static readonly BrassPreset Brass = TonePresets.Load(Path.Combine(AppContext.BaseDirectory, "presets", "tones")).Brass[0];

    public override bool Read(byte[] input, string folder) => Reads(() =>
        Tones.Sound(Brass, PresetJson.Read(Put(folder, "voice.json", input), TonePresetJson.Default.VoicePreset, TonePresetChecks.Check)));
}

/// <summary>Bores of the living system.</summary>
internal sealed class BoreReader() : DataReader("bore", 6, Files("bores"))
{
    public override bool Read(byte[] input, string folder) => Reads(() => BrassBoreFiles.Load(Put(folder, "bore.json", input)));
}

/// <summary>Players.</summary>
internal sealed class PlayerReader() : DataReader("player", 10,
[
    """{"name":"A","profile":{"instrument":"horn","voice":"high","lowestSung":"F3","highestSung":"C5","a4Hz":442,"tuningName":"just","tuningRoot":"Bb2","aim":"II","registerChange":"E4"},"noteNames":"german","readsTransposed":true,"unit":"cents"}""",
    """{"name":"A","profile":{"instrument":"tuba","voice":"low","lowestSung":"F2","highestSung":"D4","tuningName":"0,100,200,300,400,500,600,700,800,900,1000,1100"}}""",
])
{
    public override bool Read(byte[] input, string folder)
    {
        Put(folder, Path.Combine("players", "A.json"), input);
        return Reads(() =>
        {
            Player player = new PlayerFiles(folder).Read("A")!;
            Holds(double.IsFinite(player.Profile.TuningFor(player.Profile.LowestSung).FrequencyHz(player.Profile.HighestSung, player.Profile.A4Hz)), "the tuning gives a frequency");
        });
    }
}

/// <summary>What the screens remember. A file that cannot be used is set aside, so it is gone from its place afterwards.</summary>
internal sealed class StandReader() : DataReader("stand", 6, [Remembered()])
{
    public override bool Read(byte[] input, string folder)
    {
        string data = Path.Combine(folder, "stand");
        string path = Put(data, "stand.json", input);
        Memory memory = Memory.Load(data);
        if (memory.Trouble is not null)
        {
            IsOneLine(memory.Trouble);
            Holds(File.ReadAllBytes(path + ".unread").AsSpan().SequenceEqual(input), "what was refused is kept as it was");
            return false;
        }

        return true;
    }

    private static string Remembered() => System.Text.Json.JsonSerializer.Serialize(RememberedFile.From(App.Tui.Sound.Remembered.Usual()), RememberedJson.Default.RememberedFile);
}

/// <summary>Letters of one's own.</summary>
internal sealed class KeysReader() : DataReader("keys", 8, ["""{"formatVersion":1,"letters":{"quit":"z","help":"ö","stop":"x"}}""", """{"formatVersion":1,"letters":{}}"""])
{
    public override bool Read(byte[] input, string folder)
    {
        Put(folder, KeyMap.FileName, input);
        (KeyMap map, FileProblem? problem) = KeyMap.Load(folder);
        if (problem is not null)
        {
            IsOneLine(problem.ToString());
        }

        Holds(map.ToOwn('q') != '\0', "every meaning has a letter");
        return problem is null;
    }
}

/// <summary>A moment of sound from presets that were read.</summary>
internal static class Tones
{
    private const int Block = 512;
    private const int Blocks = 12;

    public static void Sound(BrassPreset brass, VoicePreset voice)
    {
        var pair = new FlowPair(brass, voice, 1);
        pair.Prepare(new RenderFormat(48000, Block));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(brass.LowestHz)));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(voice.LowestHz)));
        pair.TryPost(PairEvent.Start());
        float[] block = new float[Block];
        for (int i = 0; i < Blocks; i++)
        {
            pair.Render(block);
            if (!block.All(sample => float.IsFinite(sample) && Math.Abs(sample) <= 1))
            {
                throw new FuzzFinding($"block {i} of what sounds is no number or over full scale");
            }
        }
    }
}
