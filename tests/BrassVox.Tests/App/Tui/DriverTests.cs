using BrassVox.App.Tui.Terminal;
using Terminal.Gui.App;
using Terminal.Gui.Input;
using Terminal.Gui.Testing;
using Terminal.Gui.Time;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>Through the terminal library's own driver, without a terminal: what it holds is what the stand has drawn.</summary>
public sealed class DriverTests
{
    [Theory]
    [InlineData(80, 24, false)]
    [InlineData(200, 60, false)]
    [InlineData(80, 24, true)]
    public void Every_cell_arrives_and_keys_come_back(int width, int height, bool ascii)
    {
        using var rig = new StandRig();
        using IApplication app = Application.Create(new VirtualTimeProvider());
        app.Init("ansi");
        app.Driver!.SetScreenSize(width, height);
        using var view = new StandView(rig.Stand, ascii);
        view.Watch(app.Driver);
        SessionToken session = app.Begin(view)!;
        Compare(app, rig, width, height, ascii);
        Assert.Contains("START", app.Driver.ToString(), StringComparison.Ordinal);

        app.InjectKey(new Key('1'));
        Compare(app, rig, width, height, ascii);
        Assert.Contains("EXPLORE", app.Driver.ToString(), StringComparison.Ordinal);

        app.InjectKey(Key.CursorRight);
        Compare(app, rig, width, height, ascii);
        Assert.Contains("F2 +5 c sung", app.Driver.ToString(), StringComparison.Ordinal);

        app.InjectKey(Key.Esc);
        Compare(app, rig, width, height, ascii);
        Assert.Contains("START", app.Driver.ToString(), StringComparison.Ordinal);

        app.Driver.SetScreenSize(60, 20);
        app.LayoutAndDraw(true);
        Assert.Contains("wants 80x24", app.Driver.ToString(), StringComparison.Ordinal);
        app.Driver.SetScreenSize(width, height);
        Compare(app, rig, width, height, ascii);
        app.End(session);
    }

    /// <summary>Through the library's driver: three seeds of 100 keys, or BRASSVOX_FUZZ_SEEDS of BRASSVOX_FUZZ_KEYS.</summary>
    [Theory]
    [MemberData(nameof(StandTests.Seeds), MemberType = typeof(StandTests))]
    public void Random_keys_and_sizes_leave_the_driver_with_what_the_stand_has_drawn(int seed)
    {
        int count = StandTests.Setting("BRASSVOX_FUZZ_KEYS", 100);
        Key[] keys =
        [
            .. "abcdefghijklmnoprstuvwxyz0123456789,.+-=".Select(letter => new Key(letter)),
            Key.Enter, Key.Space, Key.Esc, Key.Tab, Key.Backspace, Key.Delete, Key.CursorLeft, Key.CursorRight, Key.CursorUp, Key.CursorDown,
            Key.Home, Key.End, Key.PageUp, Key.PageDown, Key.F1, Key.T.WithCtrl,
        ];
        var random = new Random(seed);
        using var rig = new StandRig();
        using IApplication app = Application.Create(new VirtualTimeProvider());
        app.Init("ansi");
        app.Driver!.SetScreenSize(80, 24);
        using var view = new StandView(rig.Stand, ascii: false);
        view.Watch(app.Driver);
        SessionToken session = app.Begin(view)!;
        (int width, int height) = (80, 24);
        for (int i = 0; i < count && !rig.Stand.IsDone; i++)
        {
            Key key = keys[random.Next(keys.Length)];
            if (key != new Key('q'))
            {
                app.InjectKey(key);
            }

            if (i % 5 == 0)
            {
                rig.Run(0.04);
            }

            if (i % 10 == 0)
            {
                (width, height) = (random.Next(60, 220), random.Next(18, 70));
                app.Driver.SetScreenSize(width, height);
            }

            if (i % 25 == 0 && !rig.Memory.Now.PlainSigns)
            {
                // A line or a list that is opened elsewhere may change the stand between two looks.
                (int w, int h) = (width, height);
                Assert.True(
                    SpinWait.SpinUntil(() => Shown(app, h).SequenceEqual(Drawn(rig, w, h, ascii: false)), TimeSpan.FromSeconds(5)),
                    $"seed {seed}, key {i}, {width}x{height}");
            }
        }

        app.End(session);
    }

    private static void Compare(IApplication app, StandRig rig, int width, int height, bool ascii) =>
        Assert.Equal(Drawn(rig, width, height, ascii), Shown(app, height));

    private static string[] Shown(IApplication app, int height)
    {
        app.LayoutAndDraw(true);
        return [.. app.Driver!.ToString()!.Replace("\r", "", StringComparison.Ordinal).Split('\n').Take(height).Select(row => row.TrimEnd())];
    }

    private static string[] Drawn(StandRig rig, int width, int height, bool ascii)
    {
        BrassVox.App.Tui.Drawing.Canvas canvas = rig.Canvas(width, height);
        return [.. Enumerable.Range(0, height).Select(y => canvas.Row(y, ascii))];
    }
}
