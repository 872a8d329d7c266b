using System.Text;
using BrassVox.Practice.Files;
using ScottPlot;
using SkiaSharp;

namespace BrassVox.Publishing.Pictures;

/// <summary>A drawn picture, ready to be written as PNG or SVG. Made to be read in grey: what differs, differs by stroke and shape.</summary>
public sealed class Picture
{
    /// <summary>Width of a picture unless another is asked for, in pixels.</summary>
    public const int UsualWidth = 1100;

    /// <summary>Height of a picture unless another is asked for, in pixels.</summary>
    public const int UsualHeight = 700;

    private readonly Multiplot _panels;

    internal Picture(params ReadOnlySpan<Plot> panels)
    {
        _panels = new Multiplot();
        _panels.Reset(panels[0]);
        foreach (Plot panel in panels[1..])
        {
            _panels.AddPlot(panel);
        }
    }

    /// <summary>Writes the picture; the file is whole or not there, and an older one of that name stays until the new one is whole.</summary>
    /// <param name="path">A name that ends in .png or .svg.</param>
    /// <param name="width">Width in pixels, 300 to 8000.</param>
    /// <param name="height">Height in pixels, 200 to 8000.</param>
    /// <exception cref="ArgumentOutOfRangeException">A size is outside its range.</exception>
    public PictureWritten Save(string path, int width = UsualWidth, int height = UsualHeight)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 300);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(width, 8000);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 200);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(height, 8000);
        bool svg = path.EndsWith(".svg", StringComparison.OrdinalIgnoreCase);
        if (!svg && !path.EndsWith(".png", StringComparison.OrdinalIgnoreCase))
        {
            return new PictureWritten(path, $"{path}: a picture is .png or .svg; end its name so.");
        }

        if (Paper.Font is null)
        {
            return new PictureWritten(path, "no font was found for the picture's words; install one, DejaVu Sans for instance.");
        }

        try
        {
            WholeFile.Write(path, file =>
            {
                if (svg)
                {
                    DrawSvg(file, width, height);
                }
                else
                {
                    file.Write(_panels.Render(width, height).GetImageBytes());
                }
            });
            return new PictureWritten(path, null);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return new PictureWritten(path, $"{path} cannot be written: {error.Message} Check that the place exists and may be written.");
        }
    }

    /// <summary>The picture as the bytes of an SVG file; null when no font is there for its words.</summary>
    /// <param name="width">Width in pixels.</param>
    /// <param name="height">Height in pixels.</param>
    public byte[]? ToSvg(int width = UsualWidth, int height = UsualHeight)
    {
        if (Paper.Font is null)
        {
            return null;
        }

        using MemoryStream bytes = new();
        DrawSvg(bytes, width, height);
        return bytes.ToArray();
    }

    private void DrawSvg(Stream to, int width, int height)
    {
        PixelRect whole = new(0, width, height, 0);

        // A panel that was never drawn is drawn twice, the second time over the first: an SVG file would hold both.
        using (SKNoDrawCanvas nowhere = new(width, height))
        {
            _panels.Render(nowhere, whole);
        }

        using MemoryStream drawn = new();
        using (SKCanvas canvas = SKSvgCanvas.Create(new SKRect(0, 0, width, height), drawn))
        {
            _panels.Render(canvas, whole);
        }

        // What is cleared is written as a black sheet below the panels, which would show in the seams between them.
        string svg = Encoding.UTF8.GetString(drawn.ToArray());
        int sheet = svg.IndexOf("<rect width=", StringComparison.Ordinal);
        to.Write(Encoding.UTF8.GetBytes(sheet < 0 ? svg : svg.Insert(sheet + "<rect".Length, " fill=\"white\"")));
    }
}
