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
}
