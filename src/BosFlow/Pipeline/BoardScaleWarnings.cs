using BosFlow.Camera;
using BosFlow.Optics;
using BosFlow.Speckle.Boards;

namespace BosFlow.Pipeline;

/// <summary>What the user should know of the scale that a printed board shows in the reference.</summary>
internal static class BoardScaleWarnings
{
    // Beyond what prints and tape measures do to a scale.
    private const double LargestScaleError = 0.02;
    private const double Coverage = 2;

    // Something may hide most of the dots, but of another board's not even a tenth agree.
    private const double LeastAgreement = 0.1;
    private const int EnoughPatches = 20;

    /// <summary>One sentence each.</summary>
    /// <param name="board">The board.</param>
    /// <param name="scale">Scale of the run; null where it has no rig.</param>
    /// <param name="seen">What the board shows.</param>
    public static IReadOnlyList<string> Of(BoardFacts board, OpticalScale? scale, BoardScale seen)
    {
        List<string> warnings = [];
        if (seen.DotPatchesSought >= EnoughPatches && seen.DotPatches < LeastAgreement * seen.DotPatchesSought)
            warnings.Add(FormattableString.Invariant($"The fiducials in the reference are those of the board ({board.Description}), but only {seen.DotPatches} of {seen.DotPatchesSought} places with dots look as it describes: give the description that was written with this very board, or a sharper reference."));
        if (seen.IsWeak)
            warnings.Add(FormattableString.Invariant($"The scale that the board ({board.Description}) shows in the reference rests on too little ({BoardScaleWords.Basis(seen)}): its standard uncertainty is {100 * seen.RelativeSigma:0.###} %, so let the reference show more of the board, or put its table of dots (.dots.csv) beside its description."));
        if (scale is null)
            return warnings;
        double difference = (scale.BackgroundMetresPerPixel / seen.MetresPerPixel) - 1;
        if (Math.Abs(difference) > Math.Max(LargestScaleError, Coverage * seen.RelativeSigma))
            warnings.Add(FormattableString.Invariant($"The board ({board.Description}) shows {BoardScaleWords.Value(seen)} in the reference, the case says {scale.BackgroundMetresPerPixel * 1e3:0.####} mm/px ({100 * difference:+0.0;-0.0} %): correct the scale or the distances in [rig], or check with bosflow print --check that the board was printed at 100 %."));
        return warnings;
    }
}
