namespace BosFlow.Registration;

/// <summary>Fits a motion to the shifts of tiles.</summary>
internal static class TileFit
{
    public static MotionFitResult Fit(MotionModel model, IReadOnlyList<TileShift> shifts) => Fit(new PlanarMotionFitter(model), PlanarMotion.Identity, shifts);

    public static MotionFitResult Fit(IMotionFitter fitter, IPictureMotion start, IReadOnlyList<TileShift> shifts) => fitter.Fit(
        start,
        [.. shifts.Select(shift => shift.X)],
        [.. shifts.Select(shift => shift.Y)],
        [.. shifts.Select(shift => shift.U)],
        [.. shifts.Select(shift => shift.V)]);
}
