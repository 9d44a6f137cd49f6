namespace BosFlow.Density;

/// <summary>What the fit of the background's motion leaves wrong in the mean displacement: the same error in all vectors, which no integration averages out.</summary>
/// <param name="ShiftSigmaPixels">Standard uncertainty of the shift in x, and of that in y, px.</param>
/// <param name="ScaleSigma">Standard uncertainty of the scale, 1: a displacement of so many px for each px from the centre. 0 where the motion has no scale.</param>
/// <param name="CentreX">x of the middle of the vectors that were fitted, px.</param>
/// <param name="CentreY">y of that middle, px.</param>
/// <remarks>A rotation left over is no gradient of anything: it shows in the residual of the integration, and cancels between the sides of an axis.</remarks>
public sealed record BackgroundMotionErrors(double ShiftSigmaPixels, double ScaleSigma, double CentreX, double CentreY)
{
    /// <summary>No such error.</summary>
    public static BackgroundMotionErrors None { get; } = new(0, 0, 0, 0);

    /// <summary>A field with the scale wrong by its standard uncertainty.</summary>
    internal SightlineField WithScale(SightlineField field) => field.Plus(
        [.. Enumerable.Range(0, field.Grid.Count).Select(node => ScaleSigma * (field.Grid.X(node % field.Grid.Columns) - CentreX))],
        [.. Enumerable.Range(0, field.Grid.Count).Select(node => ScaleSigma * (field.Grid.Y(node / field.Grid.Columns) - CentreY))]);

    /// <summary>A field with the shift along one axis wrong by its standard uncertainty.</summary>
    internal SightlineField WithShift(SightlineField field, bool alongX)
    {
        double[] wrong = new double[field.Grid.Count];
        Array.Fill(wrong, ShiftSigmaPixels);
        double[] right = new double[field.Grid.Count];
        return alongX ? field.Plus(wrong, right) : field.Plus(right, wrong);
    }
}
