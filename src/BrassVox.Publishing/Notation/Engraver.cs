using System.ComponentModel;
using System.Diagnostics;
using System.Text;

namespace BrassVox.Publishing.Notation;

/// <summary>Turns a score into a picture with LilyPond, a general-purpose engraver, where it is installed.</summary>
/// <param name="program">The program; found on the path.</param>
/// <param name="longest">How long one score may take; 30 s unless given.</param>
public sealed class Engraver(string program = "lilypond", TimeSpan? longest = null)
{
    private readonly TimeSpan _longest = longest ?? TimeSpan.FromSeconds(30);

    /// <summary>Engraves a score. Expected failures (no program, too slow, refused) come back as the reason. From any thread.</summary>
    /// <param name="score">The score.</param>
    public Engraving Engrave(Score score)
    {
        string folder = Directory.CreateTempSubdirectory("brassvox-score-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(folder, "score.ly"), LilyPondText.Write(score), new UTF8Encoding(false));
            var start = new ProcessStartInfo(program) { WorkingDirectory = folder, RedirectStandardError = true, RedirectStandardOutput = true };
            foreach (string argument in new[] { "--loglevel=ERROR", "-dbackend=svg", "-dcrop", "-dno-point-and-click", "--output=score", "score.ly" })
            {
                start.ArgumentList.Add(argument);
            }

            using Process? process = Process.Start(start);
            if (process is null)
            {
                return new Engraving(null, $"not engraved: {program} does not start.");
            }

            Task<string> said = process.StandardError.ReadToEndAsync();
            Task<string> told = process.StandardOutput.ReadToEndAsync();
            if (!process.WaitForExit(_longest))
            {
                process.Kill(entireProcessTree: true);
                return new Engraving(null, FormattableString.Invariant($"not engraved: {program} took longer than {_longest.TotalSeconds:0} s."));
            }

            Task.WaitAll(said, told);
            string picture = Path.Combine(folder, "score.cropped.svg");
            return process.ExitCode == 0 && File.Exists(picture)
                ? new Engraving(File.ReadAllText(picture), null)
                : new Engraving(null, $"not engraved: {program} says {said.Result.Trim().Split('\n')[0]}");
        }
        catch (Win32Exception)
        {
            return new Engraving(null, $"not engraved: {program} is not there; install LilyPond.");
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return new Engraving(null, $"not engraved: {error.Message}");
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
}
