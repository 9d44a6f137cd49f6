using System.Globalization;
using System.Text.Json;

namespace BosFlow.Media.Video;

/// <summary>Reads how a video stream is to be turned for display from ffprobe's description.</summary>
internal static class StreamRotation
{
    /// <summary>The orientation, and a sentence where the stream asks for a turn that moves no pixel onto a pixel.</summary>
    internal static (Orientation Orientation, string? Warning) Read(JsonElement stream, string name)
    {
        if (!stream.TryGetProperty("side_data_list", out JsonElement list))
            return (Orientation.Upright, null);
        foreach (JsonElement item in list.EnumerateArray())
        {
            if (!item.TryGetProperty("displaymatrix", out JsonElement matrix))
                continue;
            return FromMatrix(matrix.GetString()!) is Orientation orientation
                ? (orientation, null)
                : (Orientation.Upright, $"{name} asks to be turned by an angle that is no multiple of 90 degrees; it is read as it was recorded.");
        }

        return (Orientation.Upright, null);
    }

    // Nine numbers in three rows, each row after its offset: a b u, c d v, x y w. A stored step right moves by (a, b) on
    // display, a step down by (c, d). Source: ISO/IEC 14496-12:2015, section 8.3.2.
    private static Orientation? FromMatrix(string text)
    {
        int[] numbers = [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .SelectMany(static line => line[(line.IndexOf(':', StringComparison.Ordinal) + 1)..].Split(' ', StringSplitOptions.RemoveEmptyEntries))
            .Select(static number => int.Parse(number, CultureInfo.InvariantCulture))];
        if (numbers.Length != 9)
            return null;
        return (Unit(numbers[0]), Unit(numbers[1]), Unit(numbers[3]), Unit(numbers[4])) switch
        {
            (1, 0, 0, 1) => Orientation.Upright,
            (-1, 0, 0, 1) => Orientation.Mirrored,
            (-1, 0, 0, -1) => Orientation.HalfTurn,
            (1, 0, 0, -1) => Orientation.Flipped,
            (0, 1, 1, 0) => Orientation.Transposed,
            (0, 1, -1, 0) => Orientation.QuarterTurnClockwise,
            (0, -1, -1, 0) => Orientation.Transversed,
            (0, -1, 1, 0) => Orientation.QuarterTurnCounterClockwise,
            _ => null,
        };
    }

    // 16.16 fixed point; anything but -1, 0 and 1 (a shear, another angle) becomes a number that matches nothing.
    private static int Unit(int number) => Math.Abs(number) is 0 or 65536 ? number / 65536 : 2;
}
