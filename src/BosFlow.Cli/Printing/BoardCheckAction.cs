using BosFlow.Camera;
using BosFlow.Cli.CommandLine;
using BosFlow.Footage;
using BosFlow.Inspection;
using BosFlow.Media;
using BosFlow.Media.Fiducials;
using BosFlow.Results.Boards;
using BosFlow.Results.Files;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>Reads a printed board back from a photo: bosflow print --check.</summary>
internal static class BoardCheckAction
{
    private const int DocumentVersion = 1;
    private const double MostDpi = 9600;
    private const double LeastDpi = 50;

    /// <summary>Carries the check out.</summary>
    /// <returns>0 for a good board, 3 for one that is not.</returns>
    /// <exception cref="ConfigurationException">The options do not fit; one sentence a problem.</exception>
    /// <exception cref="InputDataException">Photo or description cannot be used.</exception>
    public static int Run(BoardCheckRequest request, Talk talk, CommandEnvironment environment, CancellationToken cancellationToken)
    {
        string[] outputs = [.. request.Outputs.Select(environment.Absolute)];
        string[] problems = [.. Problems(request, outputs)];
        if (problems.Length > 0)
            throw new ConfigurationException(problems);
        Board board = BoardFile.Read(environment.Absolute(request.Description!), cancellationToken).Board;
        GrayImage photo = PictureReader.Read(environment.Absolute(request.Photo));
        IReadOnlyList<FiducialSighting> sightings = FiducialFinder.Find(photo);
        IReadOnlyList<PlanePoint> corners = FiducialConsensus.Of(sightings, board.Fiducials, photo.Width, photo.Height);
        var settings = new BoardCheckSettings
        {
            Tones = request.IsLinear ? PictureTones.Linear : PictureTones.Srgb,
            RulerXMetres = request.RulerXMillimetres / 1e3,
            RulerYMetres = request.RulerYMillimetres / 1e3,
            ScanDpi = request.ScanDpi,
        };
        BoardCheck check = BoardChecker.Check(photo, board, sightings, corners, settings, cancellationToken);
        foreach (string output in outputs)
            AtomicFile.WriteBytes(output, BoardCheckPicture.Draw(photo, board, check));
        foreach (string line in BoardCheckWords.Lines(check, board, settings))
            talk.Result(line);
        foreach (string output in outputs)
            talk.Say($"What was found is drawn in {output}: rings around dots, crosses where one is missing, frames around fiducials.");
        talk.Document("print-check", DocumentVersion, BoardCheckWords.Document(check, outputs));
        return check.IsGood ? ExitCode.Done : ExitCode.DoneWithLosses;
    }

    private static IEnumerable<string> Problems(BoardCheckRequest request, string[] outputs)
    {
        if (request.Description is null)
            yield return "--check needs the description of the board: give --board board.json, which print wrote beside the drawing.";
        if (request.ScanDpi is { } dpi && !(dpi is >= LeastDpi and <= MostDpi))
            yield return FormattableString.Invariant($"--scan-dpi {dpi} is not possible; give the resolution of the scan, {LeastDpi} to {MostDpi}.");
        if (request.ScanDpi is not null && (request.RulerXMillimetres ?? request.RulerYMillimetres) is not null)
            yield return "--scan-dpi and --ruler-x-mm or --ruler-y-mm measure the same thing; give one of them.";
        foreach ((string name, double? value) in new[] { ("--ruler-x-mm", request.RulerXMillimetres), ("--ruler-y-mm", request.RulerYMillimetres) })
        {
            if (value is { } reading && !(reading > 0 && double.IsFinite(reading)))
                yield return FormattableString.Invariant($"{name} {reading} is no length; give what the steel rule reads, in mm.");
        }

        foreach (string output in outputs)
        {
            if (!output.EndsWith(".png", StringComparison.OrdinalIgnoreCase))
                yield return $"{output}: with --check, give --output a name that ends with .png: it is a picture.";
            else if (File.Exists(output) && !request.Force)
                yield return $"{output} exists already and nothing is overwritten; give another --output, or --force to replace.";
            else if (!Directory.Exists(Path.GetDirectoryName(output)))
                yield return $"There is no folder {Path.GetDirectoryName(output)}; make it first, or give another path.";
        }
    }
}
