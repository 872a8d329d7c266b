using System.ComponentModel;
using System.Diagnostics;
using System.Text;

namespace BrassVox.Publishing.Notation;

/// <summary>Turns scores into pictures with LilyPond, a general-purpose engraver, where it is installed.</summary>
/// <param name="program">The program; found on the path.</param>
/// <param name="longest">How long each score may take; 30 s unless given.</param>
public sealed class Engraver(string program = "lilypond", TimeSpan? longest = null)
{
    private readonly TimeSpan _longest = longest ?? TimeSpan.FromSeconds(30);

    /// <summary>Engraves a score. Expected failures (no program, too slow, refused) come back as the reason. From any thread.</summary>
    /// <param name="score">The score.</param>
    public Engraving Engrave(Score score) => Engrave([score])[0];

    /// <summary>Engraves several scores in one run of the program, whose start is what takes long; in their order.</summary>
    /// <param name="scores">The scores.</param>
    /// <param name="withLegend">True says above the music what the two kinds of note head mean.</param>
    /// <param name="cancel">Ends the engraver's process at once.</param>
    /// <exception cref="OperationCanceledException">The end was asked for.</exception>
    public IReadOnlyList<Engraving> Engrave(IReadOnlyList<Score> scores, bool withLegend = true, CancellationToken cancel = default)
    {
        string folder = Directory.CreateTempSubdirectory("brassvox-score-").FullName;
        try
        {
            return Run(scores, withLegend, folder, cancel);
        }
        catch (Win32Exception)
        {
            return None(scores, $"not engraved: {program} is not there; install LilyPond.");
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return None(scores, $"not engraved: {error.Message}");
        }
        finally
        {
            try
            {
                Directory.Delete(folder, recursive: true);
            }
            catch (IOException)
            {
                // A temporary folder left behind harms nothing.
            }
        }
    }

    private IReadOnlyList<Engraving> Run(IReadOnlyList<Score> scores, bool withLegend, string folder, CancellationToken cancel)
    {
        var start = new ProcessStartInfo(program) { WorkingDirectory = folder, RedirectStandardError = true, RedirectStandardOutput = true };
        foreach (string argument in new[] { "--loglevel=ERROR", "-dbackend=svg", "-dcrop", "-dno-print-pages", "-dno-point-and-click" })
        {
            start.ArgumentList.Add(argument);
        }

        for (int i = 0; i < scores.Count; i++)
        {
            File.WriteAllText(Path.Combine(folder, FormattableString.Invariant($"score{i}.ly")), LilyPondText.Write(scores[i], withLegend), new UTF8Encoding(false));
            start.ArgumentList.Add(FormattableString.Invariant($"score{i}.ly"));
        }

        using Process? process = Process.Start(start);
        if (process is null)
        {
            return None(scores, $"not engraved: {program} does not start.");
        }

        Task<string> said = process.StandardError.ReadToEndAsync(CancellationToken.None);
        Task<string> told = process.StandardOutput.ReadToEndAsync(CancellationToken.None);
        TimeSpan longest = _longest * scores.Count;
        using CancellationTokenRegistration end = cancel.Register(() => Kill(process));
        bool ended = process.WaitForExit(longest);
        if (!ended)
        {
            Kill(process);
        }

        Task.WaitAll(said, told);
        cancel.ThrowIfCancellationRequested();
        string why = ended
            ? $"not engraved: {program} says {said.Result.Trim().Split('\n')[0]}"
            : FormattableString.Invariant($"not engraved: {program} took longer than {longest.TotalSeconds:0} s.");
        return
        [
            .. scores.Select((_, i) => Path.Combine(folder, FormattableString.Invariant($"score{i}.cropped.svg")))
                .Select(picture => ended && File.Exists(picture) ? new Engraving(File.ReadAllText(picture), null) : new Engraving(null, why)),
        ];
    }

    private static void Kill(Process process)
    {
        try
        {
            process.Kill(entireProcessTree: true);
        }
        catch (InvalidOperationException)
        {
            // It has ended by itself.
        }
    }

    private static IReadOnlyList<Engraving> None(IReadOnlyList<Score> scores, string why) => [.. scores.Select(_ => new Engraving(null, why))];
}
