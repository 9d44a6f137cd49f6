using System.Security.Cryptography;
using BosFlow.Results.Files;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Boards;

/// <summary>Reads the table of the dots in blocks of a fixed size; memory follows the number of dots that are really there.</summary>
internal sealed class DotsTableReader
{
    private const int BlockBytes = 1 << 16;

    // "0.0000,0.0000,0.0000,dark" and the line's end.
    private const int ShortestLine = 26;

    private readonly string path;
    private readonly Board board;
    private readonly List<PrintedDot> dots;
    private readonly Dictionary<long, int> sizes = [];

    private DotsTableReader(string path, Board board, int count)
    {
        this.path = path;
        this.board = board;
        dots = new List<PrintedDot>(count);
        for (int i = 0; i < board.Settings.Sizes.Count; i++)
            sizes[DotsTable.Steps(board.Settings.Sizes[i])] = i;
    }

    /// <summary>Reads the dots of a board whose description is known.</summary>
    public static IReadOnlyList<PrintedDot> Read(string path, DotsTableEntry entry, Board board, CancellationToken ct)
    {
        try
        {
            OrdinaryFile.Require(path);
            using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            long least = DotsTable.Header.Length + ((long)ShortestLine * entry.Count);
            long most = DotsTable.Header.Length + ((long)DotsTable.LongestLine * entry.Count);
            if (stream.Length < least || stream.Length > most)
                throw new InputDataException(FormattableString.Invariant($"{path} has {stream.Length} bytes, which cannot be the {entry.Count} dots of the description; take both files from the same printing."));
            CheckHash(stream, path, entry, ct);
            stream.Position = 0;
            var reader = new DotsTableReader(path, board, entry.Count);
            reader.ReadLines(stream, ct);
            if (reader.dots.Count != entry.Count)
                throw new InputDataException(FormattableString.Invariant($"{path} holds {reader.dots.Count} dots, the description says {entry.Count}; take both files from the same printing."));
            return reader.dots;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InputDataException($"The table of dots {path} cannot be read ({e.Message}); it must lie beside the board description.", e);
        }
    }

    private static void CheckHash(FileStream stream, string path, DotsTableEntry entry, CancellationToken ct)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        byte[] block = new byte[BlockBytes];
        for (int read = stream.Read(block); read > 0; read = stream.Read(block))
        {
            ct.ThrowIfCancellationRequested();
            hash.AppendData(block, 0, read);
        }

        if (Convert.ToHexStringLower(hash.GetHashAndReset()) != entry.Sha256)
            throw new InputDataException($"{path} is not the table that the board description was written with (its SHA-256 differs); take both files from the same printing.");
    }

    private void ReadLines(FileStream stream, CancellationToken ct)
    {
        byte[] block = new byte[BlockBytes];
        int filled = 0;
        bool atHeader = true;
        for (int read = stream.Read(block); read > 0; read = stream.Read(block, filled, block.Length - filled))
        {
            ct.ThrowIfCancellationRequested();
            filled += read;
            int start = 0;
            for (int end = block.AsSpan(start, filled - start).IndexOf((byte)'\n'); end >= 0; end = block.AsSpan(start, filled - start).IndexOf((byte)'\n'))
            {
                ReadLine(block.AsSpan(start, end + 1), atHeader);
                atHeader = false;
                start += end + 1;
            }

            filled -= start;
            if (filled > DotsTable.LongestLine)
                throw Fault("the line is too long");
            block.AsSpan(start, filled).CopyTo(block);
        }

        if (filled > 0)
            throw Fault("the file ends within the line");
    }

    private void ReadLine(ReadOnlySpan<byte> line, bool isHeader)
    {
        if (isHeader)
        {
            if (!line.SequenceEqual(DotsTable.Header))
                throw new InputDataException($"{path}, line 1 is not the heading x_mm,y_mm,diameter_mm,tone; give the table that bosflow print wrote.");
            return;
        }

        if (!(TakeNumber(ref line, out long x) && TakeNumber(ref line, out long y) && TakeNumber(ref line, out long diameter)))
            throw Fault("x_mm, y_mm and diameter_mm must be numbers with four decimals");
        line = line[..^1];
        bool isLight = line.SequenceEqual(DotsTable.Light);
        if (!isLight && !line.SequenceEqual(DotsTable.Dark))
            throw Fault("the tone must be dark or light");
        if (!sizes.TryGetValue(diameter, out int size))
            throw Fault("the diameter is none of the description's dot sizes");
        Add(new PrintedDot(x / BoardMaker.StepsPerMetre, y / BoardMaker.StepsPerMetre, size, isLight));
    }

    private void Add(PrintedDot dot)
    {
        if (board.Settings.Tones != BoardTones.TwoTone && dot.IsLight != (board.Settings.Tones == BoardTones.Inverted))
            throw Fault("the dot's tone is not one of the board's");
        double radius = board.Settings.Sizes[dot.Size].DiameterMetres / 2;
        BoardRectangle pattern = board.Pattern;
        // Half a step of rounding of the diameter's decimals.
        const double slack = 1 / BoardMaker.StepsPerMetre;
        if (dot.X - radius < pattern.Left - slack || dot.X + radius > pattern.Right + slack
            || dot.Y - radius < pattern.Top - slack || dot.Y + radius > pattern.Bottom + slack)
            throw Fault("the dot lies outside the pattern");
        dots.Add(dot);
    }

    // Digits, a point, four digits, a comma.
    private static bool TakeNumber(ref ReadOnlySpan<byte> line, out long steps)
    {
        steps = 0;
        int point = line.IndexOf((byte)'.');
        if (point is < 1 or > 6 || line.Length < point + 6 || line[point + 5] != ',')
            return false;
        for (int i = 0; i < point + 5; i++)
        {
            if (i == point)
                continue;
            if (line[i] is < (byte)'0' or > (byte)'9')
                return false;
            steps = (steps * 10) + (line[i] - '0');
        }

        line = line[(point + 6)..];
        return true;
    }

    private InputDataException Fault(string what) =>
        new(FormattableString.Invariant($"{path}, line {dots.Count + 2}: {what}; write board and table again with bosflow print."));
}
