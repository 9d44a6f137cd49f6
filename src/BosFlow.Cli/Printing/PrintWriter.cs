using BosFlow.Results.Boards;
using BosFlow.Results.Files;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>Writes the files of a job: all of them, or none.</summary>
internal static class PrintWriter
{
    /// <summary>Writes the files.</summary>
    /// <param name="job">The job.</param>
    /// <param name="board">Its board.</param>
    /// <param name="version">Version of the program.</param>
    /// <param name="cancellationToken">Ends the work; nothing is left behind then.</param>
    public static void Write(PrintJob job, Board board, string version, CancellationToken cancellationToken)
    {
        var print = new BoardPrint { Board = board, Plan = job.Plan, Date = job.Date, ProgramVersion = version };
        var document = new BoardDocument { Board = board, Sheets = job.Plan, Date = job.Date, ProgramVersion = version };
        using var drawings = new FileSet();
        foreach (PrintFile file in job.Files.Where(file => file.IsDrawing))
            drawings.Write(file.Path, stream => Draw(stream, file, job, print, cancellationToken));
        cancellationToken.ThrowIfCancellationRequested();
        BoardFile.Write(job.DescriptionPath, document);
        drawings.Commit();
    }

    private static void Draw(Stream stream, PrintFile file, PrintJob job, BoardPrint print, CancellationToken cancellationToken)
    {
        switch (file)
        {
            case { Kind: PrintFileKind.Pdf }:
                BoardPdf.Write(stream, print, cancellationToken);
                break;
            case { Kind: PrintFileKind.Svg, IsAssembly: true }:
                BoardSvg.WriteAssembly(stream, print);
                break;
            case { Kind: PrintFileKind.Svg, Sheet: { } sheet }:
                BoardSvg.WriteSheet(stream, print, sheet, cancellationToken);
                break;
            case { Kind: PrintFileKind.Png, IsAssembly: true }:
                BoardPng.WriteAssembly(stream, print, job.Dpi, cancellationToken);
                break;
            case { Kind: PrintFileKind.Png, Sheet: { } sheet }:
                BoardPng.WriteSheet(stream, print, sheet, job.Dpi, cancellationToken);
                break;
            case { Kind: PrintFileKind.Contours }:
                BoardContours.Write(stream, print.Board, cancellationToken);
                break;
            default:
                throw new InvalidOperationException($"{file.Kind} is no drawing.");
        }
    }
}
