using System.Globalization;

namespace BosFlow.Cli.Printing;

/// <summary>Size of a board as typed: <c>1200x800</c>, mm.</summary>
internal static class BoardSizeSyntax
{
    private const double MillimetresPerMetre = 1e3;

    /// <summary>Reads a size.</summary>
    /// <param name="typed">As typed.</param>
    /// <param name="width">m.</param>
    /// <param name="height">m.</param>
    /// <returns>Whether it could be read; its range is not checked.</returns>
    public static bool TryRead(string typed, out double width, out double height)
    {
        width = height = 0;
        string[] sides = typed.Split('x', 'X');
        if (sides.Length != 2 || !TrySide(sides[0], out width) || !TrySide(sides[1], out height))
            return false;
        width /= MillimetresPerMetre;
        height /= MillimetresPerMetre;
        return true;
    }

    private static bool TrySide(string text, out double value) =>
        double.TryParse(text.Trim(), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value);
}
