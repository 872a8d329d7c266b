using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Rooms;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>What holds in every room: silence, keys, pedal, sizes, themes. Statement numbers are those of the screens' design.</summary>
public sealed class StandTests
{
    private const double SilentAmplitude = 1e-4; // -80 dBFS

    /// <summary>Ways from Start into every room.</summary>
    public static TheoryData<string, string> Rooms { get; } = new()
    {
        { "Start", "" },
        { "Explore", "1" },
        { "Explore, sounding", "1 Enter" },
        { "Listen, choosing", "2" },
        { "Listen", "2 Enter" },
        { "Listen, sounding", "2 Enter Enter" },
        { "Listen, moving the voice", "2 6 Enter Enter" },
        { "Play along, choosing", "3" },
        { "Play along", "3 Enter" },
        { "Play along, cue", "3 Enter Enter" },
        { "Passage", "4" },
        { "Takes", "5" },
        { "Plan", "6" },
        { "Players", "8 8 Enter" },
        { "Body note", "y" },
        { "Stage, choosing", "7" },
        { "Stage, sounding", "7 Enter" },
        { "Stage, blank", "7 2 b" },
        { "Set-up", "8" },
        { "Set-up, speaker", "8 2 Enter" },
        { "Keys over Explore", "1 h" },
    };

    [Fact]
    public void Statement_2_space_never_starts_sound()
    {
        foreach (string way in Rooms.Select(row => row.Data.Item2))
        {
            using StandRig rig = At(way);
            rig.Press("Tacet").Run(0.2);
            for (int i = 0; i < 5; i++)
            {
                rig.Press(" ").Run(0.08);
                Assert.False(rig.Desk.IsSounding, way);
                Assert.All(rig.Heard, sample => Assert.InRange(Math.Abs(sample), 0, SilentAmplitude));
            }
        }
    }

    [Theory]
    [InlineData(" ", false)]
    [InlineData("Tacet", false)]
    [InlineData("Tacet", true)]
    [InlineData("PageUp", false)]
    public void Statement_1_silence_within_50_ms_and_a_header_that_says_so(string key, bool typing)
    {
        using StandRig rig = At("1 Enter");
        rig.Run(0.6);
        Assert.Contains(rig.Heard, sample => Math.Abs(sample) > 0.001);
        if (typing)
        {
            rig.Press("n", "B");
        }

        rig.Press(key).Run(0.2);
        int within = (int)(0.05 * HandAudio.RateHz);
        Assert.All(rig.Heard.Skip(within), sample => Assert.InRange(Math.Abs(sample), 0, SilentAmplitude));
        Assert.Contains("tacet", rig.Canvas().Row(0), StringComparison.Ordinal);
    }

    [Fact]
    public void Statement_3_the_first_Enter_sounds_a_fifth_at_no_more_than_minus_30_dBFS()
    {
        using var rig = new StandRig(firstRun: true);
        rig.Press("Enter").Run(1.0);
        // AES17: a full-scale sine reads 0 dBFS (RMS plus 3.01 dB; from memory).
        double meanSquare = rig.Heard.TakeLast(HandAudio.RateHz / 2).Average(sample => (double)sample * sample);
        Assert.InRange((10 * Math.Log10(meanSquare)) + 3.01, -50, -30);
        Assert.Equal(1.5, rig.Desk.Engine!.Read(1).FrequencyHz / rig.Desk.Engine.Read(0).FrequencyHz, 0.01);
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void Statement_4_the_pedal_reaches_every_key_of_a_room_and_leaves_it(string room, string way)
    {
        using StandRig rig = At(way);
        rig.Press("Tacet").Run(0.12);
        bool isStart = room == "Start";
        Assert.Contains(rig.Stand.Top.Choices, choice => choice.Label is "leave" or "close" or "quit");
        if (isStart)
        {
            return;
        }

        HashSet<string> reached = [];
        int count = rig.Stand.Top.Choices.Count;
        for (int i = 0; i < count; i++)
        {
            reached.Add(rig.Stand.Top.Choices[rig.Stand.Top.MarkedIndex].Label);
            rig.Press("PageUp");
        }

        Assert.Equal(rig.Stand.Top.Choices.Select(choice => choice.Label).ToHashSet(), reached);
    }

    [Fact]
    public void Statement_4_in_explore_the_list_of_keys_can_be_marked_and_done_with_two_switches()
    {
        using StandRig rig = At("1");
        IReadOnlyList<RoomKey> keys = rig.Stand.Top.Keys;
        rig.Press("PageUp", "PageDown");
        Assert.IsType<KeysRoom>(rig.Stand.Top);
        Assert.All(keys, key => Assert.Contains(rig.Stand.Top.Choices, choice => choice.Label == $"{key.Shown}: {key.Help}"));
        while (!rig.Stand.Top.Choices[rig.Stand.Top.MarkedIndex].Label.StartsWith("c:", StringComparison.Ordinal))
        {
            rig.Press("PageUp");
        }

        rig.Press("PageDown");
        Assert.IsType<ExploreRoom>(rig.Stand.Top);
        Assert.Contains("coupled 100", rig.Screen(), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void Statement_5_every_listed_key_acts_or_says_why_not(string room, string way)
    {
        using StandRig listing = At(way);
        KeyPress[] presses = [.. listing.Stand.Top.Keys.Concat(listing.Stand.KeysEverywhere).SelectMany(key => key.Presses)];
        using StandRig first = At(way);
        StandRig rig = first;
        foreach (KeyPress press in presses)
        {
            string before = rig.Screen();
            bool soundedBefore = rig.Desk.IsSounding;
            rig.Stand.Press(press);
            bool acted = rig.Screen() != before || rig.Stand.IsDone || rig.Desk.IsSounding != soundedBefore || rig.Stand.Message.Length > 0;
            bool silent = press.Kind is PressKind.Space or PressKind.Tacet or PressKind.Escape;
            Assert.True(acted || silent, $"{room}: {press} did nothing and said nothing");
            if (rig != first)
            {
                rig.Dispose();
            }

            rig = At(way);
        }

        rig.Dispose();
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void Statement_5_every_letter_of_a_room_has_its_one_meaning(string room, string way)
    {
        using StandRig rig = At(way);
        IEnumerable<char> letters = rig.Stand.Top.Keys
            .SelectMany(key => key.Presses)
            .Where(press => press.Kind == PressKind.Letter)
            .Select(press => press.Letter);
        Assert.All(letters, letter => Assert.True(Letters.Meaning(letter) is not null, $"{room}: {letter}"));
        Assert.Equal(letters.Distinct().Count(), letters.Count());
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void Statements_6_and_7_themes_and_ascii_change_no_column(string room, string way)
    {
        using StandRig plain = At(way);
        string dark = plain.Screen();
        plain.Memory.Change(now => now with { Theme = "none" });
        Assert.Equal(dark, plain.Screen());
        Canvas canvas = plain.Canvas();
        for (int y = 0; y < canvas.Height; y++)
        {
            string ascii = canvas.Row(y, ascii: true);
            Assert.All(ascii, glyph => Assert.True(glyph is >= ' ' and <= '~', $"{room}: {glyph}"));
            Assert.Equal(canvas.Row(y).Length, ascii.Length);
        }
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void No_glyph_lacks_its_ascii_stand_in(string room, string way)
    {
        using StandRig rig = At(way);
        foreach (char glyph in rig.Screen(200, 60).Where(glyph => glyph is > '~'))
        {
            Assert.True(glyph == Glyphs.Fog || Glyphs.ToAscii(glyph) != '?', $"{room}: {glyph}");
        }
    }

    [Theory]
    [InlineData(60, 20)]
    [InlineData(79, 24)]
    [InlineData(80, 23)]
    [InlineData(20, 5)]
    [InlineData(3, 1)]
    [InlineData(0, 0)]
    public void Statement_18_a_small_window_says_what_it_wants_and_space_still_silences(int width, int height)
    {
        using StandRig rig = At("1 Enter");
        rig.Run(0.3);
        string small = rig.Screen(width, height);
        if (width >= 60)
        {
            Assert.Contains("80x24", small, StringComparison.Ordinal);
            Assert.Contains("Space", small, StringComparison.Ordinal);
            Assert.Contains("-24 dB", small, StringComparison.Ordinal);
        }

        rig.Press(" ").Run(0.1);
        Assert.False(rig.Desk.IsSounding);
    }

    [Fact]
    public void Statement_18_changing_sizes_while_it_sounds_changes_no_sample()
    {
        List<float> Heard(bool changes)
        {
            using StandRig rig = At("1 Enter");
            List<float> heard = [];
            foreach ((int width, int height) in new[] { (80, 24), (200, 60), (60, 20), (80, 24) })
            {
                _ = changes ? rig.Screen(width, height) : "";
                heard.AddRange(rig.Run(0.2).Heard);
            }

            return heard;
        }

        List<float> steady = Heard(changes: false);
        Assert.Contains(steady, sample => Math.Abs(sample) > 0.01);
        Assert.Equal(steady, Heard(changes: true));
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void Every_room_fills_the_designed_sizes_and_keeps_its_last_row(string room, string way)
    {
        using StandRig rig = At(way);
        foreach ((int width, int height) in new[] { (80, 24), (120, 40), (200, 60), (300, 100) })
        {
            Canvas canvas = rig.Canvas(width, height);
            Assert.True(canvas.Row(0).Length == width, $"{room} at {width}x{height}: the header ends with the level");
            Assert.True(room == "Stage, blank" || canvas.Row(height - 1).Length > 0, $"{room} at {width}x{height}: the last row names keys");
            Assert.NotEmpty(rig.Stand.Top.Where);
        }
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void The_last_row_is_not_cut_at_80_columns_and_ends_with_the_same_key_as_in_a_wide_window(string room, string way)
    {
        using StandRig rig = At(way);
        string narrow = rig.Canvas(80, 24).Row(23);
        string wide = rig.Canvas(300, 24).Row(23);
        Assert.True(wide.EndsWith(LastItem(narrow), StringComparison.Ordinal), $"{room}: {narrow}");
        if (rig.Stand.Top is KeysRoom)
        {
            Assert.Equal(rig.Canvas(300, 24).Row(21), rig.Canvas(80, 24).Row(21));
        }

        static string LastItem(string row) => row[(row.LastIndexOf("  ", StringComparison.Ordinal) + 1)..];
    }

    /// <summary>Seeds of the random walk: three, or as many as BRASSVOX_FUZZ_SEEDS says; 300 keys each, or BRASSVOX_FUZZ_KEYS.</summary>
    public static TheoryData<int> Seeds { get; } = [.. Enumerable.Range(1, Setting("BRASSVOX_FUZZ_SEEDS", 3))];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Random_keys_and_sizes_break_nothing(int seed)
    {
        int count = Setting("BRASSVOX_FUZZ_KEYS", 300);
        const string letters = "abcdefghijklmnoprstuvwxyz0123456789,.+-=";
        PressKind[] kinds = [.. Enum.GetValues<PressKind>().Where(kind => kind is not (PressKind.Letter or PressKind.Interrupt))];
        var random = new Random(seed);
        using var rig = new StandRig();
        for (int i = 0; i < count; i++)
        {
            KeyPress press = random.Next(2) == 0
                ? letters[random.Next(letters.Length)]
                : kinds[random.Next(kinds.Length)];
            rig.Stand.Press(press);
            if (i % 8 == 0)
            {
                rig.Run(0.04);
                Assert.All(rig.Heard, sample => Assert.InRange(sample, -1f, 1f));
            }

            Canvas canvas = rig.Canvas(random.Next(60, 210), random.Next(18, 64));
            Assert.True(canvas.Height > 0, $"seed {seed}, key {i}");
        }
    }

    [Fact]
    public void Statement_19_a_lost_device_is_named_and_the_sound_comes_back_tacet()
    {
        using StandRig rig = At("1 Enter");
        rig.Run(0.2);
        rig.Audio.Output!.End(BrassVox.Audio.LineEnd.DeviceLost, "hand: unplugged.");
        rig.Run(0.08);
        Assert.Contains("unplugged", rig.Stand.Message, StringComparison.Ordinal);
        Assert.False(rig.Desk.IsSounding);
        rig.Settle();
        rig.Run(0.08);
        rig.Settle();
        Assert.True(rig.Desk.HasDevice);
        Assert.False(rig.Desk.IsSounding);
        Assert.Contains("back", rig.Stand.Message, StringComparison.Ordinal);
        rig.Press("Enter").Run(0.3);
        Assert.Contains(rig.Heard, sample => Math.Abs(sample) > 0.001);
    }

    [Fact]
    public void The_level_rises_by_6_dB_a_second_at_most_and_is_always_shown()
    {
        using StandRig rig = At("1");
        rig.Press("-", "-");
        Assert.Contains("-30 dB", rig.Canvas().Row(0), StringComparison.Ordinal);
        rig.Press("+", "+", "+", "+");
        Assert.Contains("-27 dB", rig.Canvas().Row(0), StringComparison.Ordinal);
        rig.Run(0.6).Press("+");
        Assert.Contains("-24 dB", rig.Canvas().Row(0), StringComparison.Ordinal);
    }

    [Fact]
    public void A_later_run_begins_no_louder_than_minus_24_dB()
    {
        using var first = new StandRig();
        first.Memory.Change(now => now with { LevelDb = -3 });
        first.Memory.Save();
        using var later = new StandRig(dataFolder: first.Folder);
        Assert.Equal(-24, later.Desk.LevelDb);
    }

    internal static int Setting(string variable, int usual) =>
        int.TryParse(Environment.GetEnvironmentVariable(variable), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out int value) ? value : usual;

    internal static string Joined(StandRig rig) => string.Join(' ', rig.Screen().Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    internal static StandRig At(string way)
    {
        var rig = new StandRig();
        rig.Memory.Change(now => now with { LevelDb = -24 });
        rig.Desk.SetLevel(-24);
        foreach (string key in way.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            rig.Press(key).Run(0.04);
        }

        // What a room opens beside the screen is open before anything is looked at.
        (rig.Stand.Top as PlayAlongRoom)?.Opening.Wait(TestContext.Current.CancellationToken);
        SpinWait.SpinUntil(
            () =>
            {
                rig.Stand.Top.Tick();
                return !rig.Screen().Contains("looking for devices", StringComparison.Ordinal);
            },
            TimeSpan.FromSeconds(5));
        return rig;
    }
}
