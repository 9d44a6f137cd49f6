using System.Globalization;
using BosFlow.Camera;
using BosFlow.Footage;
using BosFlow.Speckle.Boards;

namespace BosFlow.Inspection;

/// <summary>Why a photo of a board cannot be read.</summary>
internal static class PhotoProblems
{
    private const double LeastFiducialPixels = 32;

    public static void ThrowIfNotLaid(GrayImage photo, Board board, IReadOnlyList<FiducialSighting> sightings, IReadOnlyList<PlanePoint> corners)
    {
        if (board.Fiducials.Count == 0)
            throw new InputDataException("This board was printed without fiducials, so a photo of it cannot be laid on its description; print it with them to have it checked.");
        if (board.Dots.Count == 0)
            throw new InputDataException("The description of the board has no dots; keep the file of the dots beside it, as bosflow print wrote both.");
        if (sightings.Count == 0)
        {
            throw new InputDataException(FormattableString.Invariant(
                $"No fiducials were found in the photo ({photo.Width} x {photo.Height} px): it must show the board sharp and evenly lit, each fiducial at least {LeastFiducialPixels:0} px wide, with its white zone."));
        }

        int[] seen = [.. sightings.Select(sighting => sighting.Id)];
        if (!board.Fiducials.Any(mark => seen.Contains(mark.Id)))
        {
            throw new InputDataException(FormattableString.Invariant(
                $"The photo shows another board: its fiducials ({Ids(seen)}) are not those of the description (0 to {board.Fiducials.Max(mark => mark.Id)}); give the description that was written with this board."));
        }

        int agreeing = corners.Count / 4;
        int known = seen.Count(id => board.Fiducials.Any(mark => mark.Id == id));
        if (agreeing >= BoardCheckLimits.Fiducials)
            return;
        if (known >= BoardCheckLimits.Fiducials)
        {
            throw new InputDataException(FormattableString.Invariant(
                $"The photo shows another board, or one that is bent: of {known} fiducials found only {agreeing} lie as the description says; give the description that was written with this board, or lay it flat."));
        }

        throw new InputDataException(FormattableString.Invariant(
            $"Only {known} of the board's {board.Fiducials.Count} fiducials were found ({Ids(seen)}), and {BoardCheckLimits.Fiducials} are needed: take the photo so that it shows more of the board, sharp and without glare."));
    }

    public static void ThrowIfNotFixed(PlaneFitResult? plane, IReadOnlyList<Fiducial> found)
    {
        double side = found.Count == 0 ? 0 : found[0].Side;
        bool isLine = found.Count == 0
            || found.Max(mark => mark.X) - found.Min(mark => mark.X) < side
            || found.Max(mark => mark.Y) - found.Min(mark => mark.Y) < side;
        if (plane is null || isLine)
            throw new InputDataException("The fiducials found lie along one edge of the board only; take the photo so that it shows fiducials of at least two edges.");
    }

    public static void ThrowIfTooCoarse(GrayImage photo, Board board, PlaneFitResult plane)
    {
        double dot = board.Settings.Sizes.Max(size => size.DiameterMetres);
        double pixels = dot * plane.PixelsPerMetre;
        if (pixels >= BoardCheckLimits.LeastDotPixels)
            return;
        double single = BoardCheckLimits.SingleDotPixels / pixels;
        throw new InputDataException(FormattableString.Invariant(
            $"The photo is too coarse: a dot of {dot * 1e3:0.###} mm is {pixels:0.0} px wide in it; {BoardCheckLimits.LeastDotPixels} px are the least for the coverage, {BoardCheckLimits.SingleDotPixels} px for single dots, so go {single:0.0} times nearer and take a part of the board, or a photo {Math.Ceiling(photo.Width * single):0} px wide."));
    }

    private static string Ids(int[] ids)
    {
        const int most = 8;
        string names = string.Join(", ", ids.Take(most).Select(id => id.ToString(CultureInfo.InvariantCulture)));
        return ids.Length > most ? names + ", ..." : names;
    }
}
