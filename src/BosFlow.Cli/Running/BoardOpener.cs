using BosFlow.Camera;
using BosFlow.Cli.CaseFile;
using BosFlow.Media.Fiducials;
using BosFlow.Registration;
using BosFlow.Results.Boards;
using BosFlow.Results.Runs;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Running;

/// <summary>Reads the description of the printed board that a case names, and looks for its fiducials in the reference.</summary>
internal static class BoardOpener
{
    // Two fiducials: one alone could be a chance.
    private const int FewestCorners = 8;

    /// <summary>Absolute paths of the description; empty where the case names none.</summary>
    public static IReadOnlyList<string> Files(LoadedCase loaded) =>
        loaded.Experiment.BoardDescription is { } path ? [Path.GetFullPath(path, loaded.Folder)] : [];

    /// <summary>Reads the description.</summary>
    /// <exception cref="InputDataException">It is missing, damaged, or says something impossible.</exception>
    public static BoardDocument? Open(LoadedCase loaded) => Files(loaded) is [string file] ? BoardFile.ReadWithoutDots(file) : null;

    /// <summary>What the run writes down of the board.</summary>
    public static BoardFacts? Facts(BoardDocument? document, IReadOnlyList<RunInput> inputs) => document is null || inputs is not [RunInput input]
        ? null
        : BoardFacts.Of(document.Board, document.DotCount, input.Name, input.Sha256);

    /// <summary>Scale on the board as its fiducials show it in the first picture of the reference, m/px; null where too few are found.</summary>
    public static double? SeenScale(BoardDocument? document, ReferenceSource reference)
    {
        if (document is null || document.Board.Fiducials.Count == 0 || reference.Frames.FirstOrDefault()?.Image is not { } picture)
            return null;
        IReadOnlyList<PlanePoint> corners = FiducialConsensus.Of(FiducialFinder.Find(picture), document.Board.Fiducials, picture.Width, picture.Height);
        if (corners.Count < FewestCorners)
            return null;
        return PlaneFit.Fit(PlaneModel.Photo, corners, picture.Width, picture.Height) is { } plane ? 1 / plane.PixelsPerMetre : null;
    }
}
