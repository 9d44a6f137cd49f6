using System.Globalization;
using System.Text;

namespace BosFlow.TestKit;

/// <summary>A rendered page: 8-bit grey, row by row from the top.</summary>
/// <param name="Width">Width, px.</param>
/// <param name="Height">Height, px.</param>
/// <param name="Pixels">Grey levels, 0 black to 255 white; width times height of them.</param>
public sealed record GreyPage(int Width, int Height, byte[] Pixels)
{
    /// <summary>Reads a portable grey map of 8 bits (binary, without comments), as page renderers write it.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="InvalidDataException">It is no such file.</exception>
    public static GreyPage ReadPgm(string path)
    {
        byte[] bytes = File.ReadAllBytes(path);
        List<string> words = [];
        int at = 0;
        while (words.Count < 4)
        {
            int start = at;
            while (!char.IsWhiteSpace((char)bytes[at]))
                at++;
            if (at > start)
                words.Add(Encoding.ASCII.GetString(bytes, start, at - start));
            at++;
        }

        int width = int.Parse(words[1], CultureInfo.InvariantCulture);
        int height = int.Parse(words[2], CultureInfo.InvariantCulture);
        if (words[0] != "P5" || words[3] != "255" || bytes.Length != at + ((long)width * height))
            throw new InvalidDataException($"{path} is no grey map of 8 bits.");
        return new GreyPage(width, height, bytes[at..]);
    }

    /// <summary>Middle of the ink of a part of the page, of an upright or a level line.</summary>
    /// <param name="ink">Ink of the grey levels, see <see cref="DiscFinder"/>.</param>
    /// <param name="left">First column of the part, px.</param>
    /// <param name="right">Column behind the last one, px.</param>
    /// <param name="top">First row, px.</param>
    /// <param name="bottom">Row behind the last one, px.</param>
    /// <returns>px from the left and from the upper edge of the page; NaN where there is no ink.</returns>
    public (double X, double Y) MiddleOfInk(double[] ink, int left, int right, int top, int bottom)
    {
        ArgumentNullException.ThrowIfNull(ink);
        double sum = 0;
        double sumX = 0;
        double sumY = 0;
        for (int y = top; y < bottom; y++)
        {
            for (int x = left; x < right; x++)
            {
                double here = ink[Pixels[(y * Width) + x]];
                sum += here;
                sumX += here * (x + 0.5);
                sumY += here * (y + 0.5);
            }
        }

        return (sumX / sum, sumY / sum);
    }
}
