using BosFlow.Camera;
using BosFlow.Cli.CaseFile;
using BosFlow.Inspection;
using BosFlow.Media.Fiducials;
using BosFlow.Registration;
using BosFlow.Results.Boards;
using BosFlow.Results.Runs;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Running;

/// <summary>Reads the description of the printed board that a case names, and looks for its fiducials in the reference.</summary>
internal static class BoardOpener
{
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

    /// <summary>Scale of the board as its fiducials and dots show it in the first picture of the reference; null where no two fiducials are found.</summary>
    /// <remarks>The dots are compared where their table lies beside the description.</remarks>
    /// <exception cref="InputDataException">The table of the dots is there, and is not the one that the description was written with.</exception>
    public static BoardScale? SeenScale(LoadedCase loaded, BoardDocument? document, ReferenceSource reference, CancellationToken cancellationToken)
    {
        if (document is null || document.Board.Fiducials.Count == 0 || reference.Frames.FirstOrDefault()?.Image is not { } picture)
            return null;
        IReadOnlyList<PlanePoint> corners = FiducialConsensus.Of(FiducialFinder.Find(picture), document.Board.Fiducials, picture.Width, picture.Height);
        if (corners.Count == 0)
            return null;
        string file = Files(loaded)[0];
        Board board = File.Exists(BoardFile.DotsPathOf(file)) ? BoardFile.Read(file, cancellationToken).Board : document.Board;
        return BoardScaling.Of(picture, board, corners, loaded.Experiment.Lens is { } lens ? new LensModel(lens) : null, cancellationToken);
    }
}
