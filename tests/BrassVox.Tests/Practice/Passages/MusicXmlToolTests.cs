using System.Diagnostics;
using BrassVox.Practice.Passages;
using BrassVox.Tests.Audio;
using Xunit;

namespace BrassVox.Tests.Practice.Passages;

/// <summary>MusicXML written in the test run by python-ly, a general-purpose notation library, from a text of our own.</summary>
[Trait("Needs", "Ly")]
public sealed class MusicXmlToolTests
{
    [Fact]
    public void What_a_notation_tool_writes_is_read()
    {
        Need();
        using var folder = new TestFolder();
        string source = folder.File("line.ly");
        string score = folder.File("line.musicxml");
        File.WriteAllText(source, """
            \version "2.24.0"
            \score { <<
              \new Staff \with { instrumentName = "Voice" } { \time 4/4 \tempo 4 = 66 \clef bass f2 g2 \tuplet 3/2 { a4 bes c' } d'2 ~ | d'1 }
              \new Staff \with { instrumentName = "Trombone" } { \clef bass bes,1 c2 r4 d4 | ees1 }
            >> }
            """);
        Assert.Equal(0, Ly("musicxml", source, "-o", score));
        PassageLoad load = PassageFile.Read(score);
        Assert.True(load.Passage is not null, load.Problem?.ToString());
        Passage expected = PassageTextTests.Read("""
            time: 4/4
            tempo: 66
            P: Bb2/1 | C3/2 r/4 D3/4 | Eb3/1 |
            S: F3/2 G3/2 | 3:2( A3/4 Bb3 C4 ) D4/2~ | D4/1 |
            """).Passage!;
        PassageTextTests.Same(expected with { Title = load.Passage.Title }, load.Passage);
    }

    private static void Need()
    {
        try
        {
            Ly("--version");
        }
        catch (System.ComponentModel.Win32Exception)
        {
            Assert.Skip("ly (package python3-ly) is not installed.");
        }
    }

    private static int Ly(params string[] arguments)
    {
        using Process process = Process.Start(new ProcessStartInfo("ly", arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        process.StandardOutput.ReadToEnd();
        process.StandardError.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode;
    }
}
