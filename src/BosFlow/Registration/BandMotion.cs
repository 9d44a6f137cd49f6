namespace BosFlow.Registration;

/// <summary>Motion of one band of rows: u = U + Stretch X, v = V + Turn X, with X the column about the middle of the picture in half widths.</summary>
/// <param name="U">Shift to the right, px.</param>
/// <param name="V">Shift down, px.</param>
/// <param name="Stretch">Change of u from the middle to the right edge, px.</param>
/// <param name="Turn">Change of v from the middle to the right edge, px.</param>
internal readonly record struct BandMotion(double U, double V, double Stretch, double Turn)
{
    /// <summary>Displacement at a column.</summary>
    /// <param name="across">Column in half widths about the middle.</param>
    public (double U, double V) At(double across) => (U + (Stretch * across), V + (Turn * across));
}
