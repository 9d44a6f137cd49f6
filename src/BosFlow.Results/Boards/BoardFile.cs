using System.Text.Json;
using BosFlow.Results.Files;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>The description of a printed board: a JSON file that says where everything is, and a table of the dots beside it.</summary>
/// <remarks>
/// The same document gives the same bytes. Positions of dots are stated to 0.1 um, the step that boards are made in, so that reading gives the very board
/// that was written. Format: docs/file-formats.md, "Board description".
/// </remarks>
public static class BoardFile
{
    /// <summary>What the description calls its format.</summary>
    public const string Format = "bosflow-board";

    /// <summary>Version of the format.</summary>
    public const int Version = 1;

    // 250 fiducials and 400 sheets take a quarter of a megabyte.
    private const int LargestBytes = 4 << 20;

    /// <summary>Where the table of the dots belongs: beside the description, with the same name and the ending .dots.csv.</summary>
    /// <param name="path">The description.</param>
    public static string DotsPathOf(string path) => Path.ChangeExtension(path, ".dots.csv");

    /// <summary>Writes the table of the dots, then the description; each is there whole or not at all, files of these names are replaced.</summary>
    /// <param name="path">The description; its folder must exist.</param>
    /// <param name="document">What to write, with its dots.</param>
    /// <exception cref="ArgumentException">A dot does not lie on a step of 0.1 um, or the dots were not read.</exception>
    /// <exception cref="IOException">The disk is full or not writable.</exception>
    public static void Write(string path, BoardDocument document)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(document);
        if (document.DotCount != document.Board.Dots.Count)
            throw new ArgumentException("A document that was read without its dots cannot be written.", nameof(document));
        string dotsPath = DotsPathOf(path);
        string hash = DotsTable.Write(dotsPath, document.Board);
        AtomicFile.Write(path, stream => BoardFileWriter.Write(stream, document, Path.GetFileName(dotsPath), hash));
    }

    /// <summary>Reads a description with its dots.</summary>
    /// <param name="path">The description; the table of the dots must lie beside it.</param>
    /// <param name="ct">Stops the work.</param>
    /// <returns>The document; its board is the one that was written, dot for dot.</returns>
    /// <exception cref="InputDataException">A file is missing, too large, changed, or says something impossible.</exception>
    public static BoardDocument Read(string path, CancellationToken ct = default)
    {
        (BoardDocument document, DotsTableEntry dots) = ReadDescription(path);
        string table = Path.Combine(Path.GetDirectoryName(path) ?? string.Empty, dots.File);
        Board board = document.Board with { Dots = DotsTableReader.Read(table, dots, document.Board, ct) };
        CheckCoverage(path, board);
        return document with { Board = board };
    }

    /// <summary>Reads a description only: for whoever needs sizes and fiducials but no single dot; the table of the dots may be missing and is not checked.</summary>
    /// <param name="path">The description.</param>
    /// <returns>The document; <see cref="Board.Dots"/> is empty and <see cref="BoardDocument.DotCount"/> says how many there are.</returns>
    /// <exception cref="InputDataException">The file is missing, too large, or says something impossible.</exception>
    public static BoardDocument ReadWithoutDots(string path) => ReadDescription(path).Document;

    private static (BoardDocument Document, DotsTableEntry Dots) ReadDescription(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        byte[] bytes = ReadBytes(path);
        try
        {
            using JsonDocument json = JsonDocument.Parse(bytes, new JsonDocumentOptions { MaxDepth = 8, AllowDuplicateProperties = false });
            return BoardFileReader.Read(new BoardFilePlace(path, string.Empty, json.RootElement));
        }
        catch (JsonException e)
        {
            string line = e.LineNumber is { } number ? FormattableString.Invariant($", line {number + 1}") : string.Empty;
            throw new InputDataException($"{path}{line} is not a board description: it is no valid JSON; write it again with bosflow print.", e);
        }
    }

    private static byte[] ReadBytes(string path)
    {
        try
        {
            OrdinaryFile.Require(path);
            using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            using var bytes = new MemoryStream();
            byte[] part = new byte[1 << 16];
            for (int read = stream.Read(part); read > 0; read = stream.Read(part))
            {
                bytes.Write(part, 0, read);
                if (bytes.Length > LargestBytes)
                    throw new InputDataException(FormattableString.Invariant($"{path} is larger than {LargestBytes >> 20} MB: it is no board description; give the .json file that bosflow print wrote."));
            }

            return bytes.ToArray();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InputDataException($"The board description {path} cannot be read ({e.Message}); check the path and its permissions.", e);
        }
    }

    // The free area is known from the description, the covered one from the dots: both must fit what is stated.
    private static void CheckCoverage(string path, Board board)
    {
        double zone = board.Fiducials.Count == 0 ? 0 : board.Fiducials[0].Side + (2 * board.FiducialQuietZone);
        double covered = 0;
        foreach (PrintedDot dot in board.Dots)
            covered += Math.PI / 4 * board.Settings.Sizes[dot.Size].DiameterMetres * board.Settings.Sizes[dot.Size].DiameterMetres;
        double coverage = covered / (board.Pattern.Area - (board.Fiducials.Count * zone * zone));
        if (!(Math.Abs(coverage - board.CoverageReached) <= 1e-6))
            throw new InputDataException(FormattableString.Invariant($"{path}: coverage_reached is {board.CoverageReached}, but the dots cover {coverage:0.######}; write the description again with bosflow print."));
    }
}
