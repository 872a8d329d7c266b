using System.Globalization;
using BrassVox.App.Tui.Pictures;
using BrassVox.Practice.Scenes;
using BrassVox.Synthesis;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What Explore keeps: a spectrum to lay under the next, and the pair as a scene of Stage.</summary>
internal sealed partial class ExploreRoom
{
    private const string KeptIdStart = "kept-";
    private PairSpectrum? _held;
    private string _heldName = "";
    private string? _keptPath;

    private void Keep()
    {
        if (_live.IsOn)
        {
            HoldMicrophone();
            return;
        }

        string scene = KeepScene();
        if (Stand.Desk.IsSounding && _spectrum is { } spectrum)
        {
            _held = spectrum;
            _heldName = Heading()[0];
            Stand.Say($"Kept, and laid under what comes: the row below the picture shows dB more or less at each mark of the part in hand. {scene}");
        }
        else
        {
            Stand.Say($"{scene} While it sounds, k also lays the spectrum under the next.");
        }
    }

    private void HoldMicrophone()
    {
        if (_live.Reading is null || _spectrum is not { } spectrum)
        {
            Stand.Say("Nothing is heard now: play or sing, hold it, and press k then.");
            return;
        }

        _held = spectrum;
        _heldName = "what you just sang and played";
        Stand.Say("Kept and laid under: now another vowel, louder, softer. The row below the picture shows dB more or less at each mark of the part in hand.");
    }

    /// <summary>Writes the pair as a scene of the player's own, once for each pair.</summary>
    private string KeepScene()
    {
        string folder = SceneLibrary.OwnFolder(Stand.Parts.DataFolder);
        SceneLibrary library = SceneLibrary.Load(SceneLibrary.ShippedFolder, folder);
        var pair = new ScenePair(_pair.Played, _pair.Sung, _pair.TuningName, _pair.PlayedCents, _pair.SungCents);
        string? only = _mix.Only is { } part && part < Parts.Count ? Parts[part].Name : null;
        string[] muted = [.. Parts.Where(item => only is null && _mix.State(item.Index) == "muted").Select(item => item.Name)];
        if (library.Scenes.FirstOrDefault(scene =>
                scene.Pair == pair && scene.Coupling == _pair.Coupling && scene.Only == only && scene.Glide is null && (scene.Muted ?? []).SequenceEqual(muted)) is { } same)
        {
            return string.Create(CultureInfo.InvariantCulture, $"It is scene {same.Number} of Stage already: {same.Name}.");
        }

        int number = library.Scenes.Count == 0 ? 1 : library.Scenes.Max(scene => scene.Number) + 1;
        int free = 1;
        while (library.Scenes.Any(scene => scene.Id == Id(free)) || File.Exists(Path.Combine(folder, $"{Id(free)}.json")))
        {
            free++;
        }

        string coupling = _pair.Coupling == 0 ? "separate" : "coupled";
        var kept = new Scene(
            1,
            Id(free),
            number,
            string.Create(CultureInfo.InvariantCulture, $"{_pair.Played} + {_pair.Sung}, {coupling}"),
            "Kept in Explore.",
            $"{PairWords.Interval(_pair.IntervalCents, _pair.TuningName)}.",
            pair,
            _pair.Coupling,
            only,
            muted.Length == 0 ? null : muted,
            Middle: only ?? Scene.Beats);
        try
        {
            _keptPath = SceneFile.Write(folder, kept);
            return string.Create(CultureInfo.InvariantCulture, $"Scene {number} of Stage; z takes it back.");
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return $"The scene could not be written: {problem.Message}";
        }

        static string Id(int n) => string.Create(CultureInfo.InvariantCulture, $"{KeptIdStart}{n}");
    }

    private void UndoKeep()
    {
        if (_keptPath is { } path)
        {
            _keptPath = null;
            _held = null;
            try
            {
                File.Delete(path);
                Stand.Say("The scene kept last is gone again, and nothing is laid under.");
            }
            catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
            {
                Stand.Say($"The scene stays: {problem.Message}");
            }

            return;
        }

        Stand.Say(_held is null ? "Nothing to undo." : "Nothing is laid under any more.");
        _held = null;
    }

    private Parameter? Vowel => Stand.Desk.Engine?.Parameters.FirstOrDefault(parameter => parameter.Spec.Id == "vowel");

    private static string VowelName(int index) => index < Vowels.Length ? Vowels[index] : string.Create(CultureInfo.InvariantCulture, $"vowel {index + 1}");

    private void NextVowel()
    {
        if (Vowel is { } vowel)
        {
            SetVowel(vowel, ((int)vowel.Target + 1) % ((int)vowel.Spec.Maximum + 1));
        }
        else
        {
            Stand.Say("This voice has no vowels to choose from.");
        }
    }

    private void SetVowel(Parameter vowel, int index)
    {
        vowel.Target = index;
        _numbersAt = double.NegativeInfinity;
        Stand.Say($"The sung tone is {VowelName(index)}. Partials move, pitches do not.");
    }

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        if (Vowel is not { } vowel || digit < 1 || digit > (int)vowel.Spec.Maximum + 1)
        {
            return false;
        }

        SetVowel(vowel, digit - 1);
        return true;
    }
}
