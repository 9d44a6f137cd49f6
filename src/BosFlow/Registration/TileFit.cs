namespace BosFlow.Registration;

/// <summary>Fits a motion to the shifts of tiles.</summary>
internal static class TileFit
{
    public static MotionFitResult Fit(MotionModel model, IReadOnlyList<TileShift> shifts) => MotionFit.Fit(
        model,
        [.. shifts.Select(shift => shift.X)],
        [.. shifts.Select(shift => shift.Y)],
        [.. shifts.Select(shift => shift.U)],
        [.. shifts.Select(shift => shift.V)],
        []);
}
