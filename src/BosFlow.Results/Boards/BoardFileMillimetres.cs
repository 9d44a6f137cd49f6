using System.Globalization;

namespace BosFlow.Results.Boards;

/// <summary>Metres inside, millimetres in a description: the decimal point moves, so that what is read is the very number that was written.</summary>
internal static class BoardFileMillimetres
{
    // Dividing by one with all its decimals takes trailing zeros away.
    private const decimal One = 1.0000000000000000000000000000m;

    /// <summary>Millimetres of a length, by its shortest decimal form.</summary>
    public static decimal OfMetres(double metres) =>
        decimal.Parse(metres.ToString("R", CultureInfo.InvariantCulture), NumberStyles.Float, CultureInfo.InvariantCulture) * 1000 / One;

    /// <summary>The length, m.</summary>
    public static double ToMetres(decimal millimetres) =>
        double.Parse((millimetres / 1000).ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
