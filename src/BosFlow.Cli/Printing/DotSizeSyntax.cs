using System.Globalization;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>Sizes of dots as typed: <c>1.0</c>, <c>0.8,1.6</c>, <c>0.8:0.7,1.6:0.3</c>.</summary>
internal static class DotSizeSyntax
{
    // A diameter is stated in the description with 0.1 um.
    private const double StepsPerMetre = 1e7;

    /// <summary>Reads sizes.</summary>
    /// <param name="typed">As typed.</param>
    /// <param name="metresPerUnit">Metres of the unit they are typed in.</param>
    /// <param name="sizes">The sizes, largest first; empty where they cannot be read.</param>
    /// <returns>Whether they could be read; their ranges are not checked.</returns>
    public static bool TryRead(string typed, double metresPerUnit, out IReadOnlyList<DotSize> sizes)
    {
        sizes = [];
        string[] parts = typed.Split(',');
        List<(double Diameter, double? Share)> read = [];
        foreach (string part in parts)
        {
            string[] halves = part.Split(':');
            if (halves.Length > 2 || !TryNumber(halves[0], out double diameter))
                return false;
            double share = 0;
            if (halves.Length == 2 && !TryNumber(halves[1], out share))
                return false;
            read.Add((diameter, halves.Length == 2 ? share : null));
        }

        if (read.Any(size => size.Share is null) && read.Any(size => size.Share is not null))
            return false;
        sizes = [.. read
            .Select(size => new DotSize(Math.Round(size.Diameter * metresPerUnit * StepsPerMetre) / StepsPerMetre, size.Share ?? (1.0 / read.Count)))
            .OrderByDescending(size => size.DiameterMetres)];
        return true;
    }

    private static bool TryNumber(string text, out double value) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value);
}
