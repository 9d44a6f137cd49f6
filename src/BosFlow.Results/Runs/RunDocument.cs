using System.Runtime.InteropServices;
using System.Text.Json;
using BosFlow.Camera;
using BosFlow.Displacement;
using BosFlow.Registration;
using BosFlow.Results.Files;

namespace BosFlow.Results.Runs;

/// <summary>The content of run.json: where the results come from. The only file of a run, beside its log and timing, that knows clock and machine.</summary>
public sealed record RunDocument
{
    /// <summary>What kind of file this is.</summary>
    public string Format { get; init; } = FormatName;

    /// <summary>Version of the layout.</summary>
    public int FormatVersion { get; init; } = 1;

    /// <summary>running, or complete once the summary is written.</summary>
    public required string State { get; init; }

    /// <summary>Program name.</summary>
    public string Program { get; init; } = "BosFlow";

    /// <summary>Version of the .NET runtime.</summary>
    public string Runtime { get; init; } = RuntimeInformation.FrameworkDescription;

    /// <summary>Operating system and processor architecture.</summary>
    public string System { get; init; } = $"{RuntimeInformation.OSDescription}, {RuntimeInformation.ProcessArchitecture}";

    /// <summary>Processor cores of the host.</summary>
    public int Cores { get; init; } = Environment.ProcessorCount;

    /// <summary>When the folder was first opened for this run, UTC.</summary>
    public required DateTimeOffset StartedUtc { get; init; }

    /// <summary>When the summary was written, UTC; null before.</summary>
    public DateTimeOffset? FinishedUtc { get; init; }

    /// <summary>SHA-256 of <see cref="Identity"/>; every frame's file carries it.</summary>
    public required string IdentitySha256 { get; init; }

    /// <summary>How frame files are named.</summary>
    public string FrameFiles { get; init; } = "frames/NNNNNN.nc, NNNNNN = number of the frame in the footage, from 0, six digits or more";

    /// <summary>Number of frames of the summary; null before it is written.</summary>
    public int? FramesAsked { get; init; }

    /// <summary>Number of them that were measured.</summary>
    public int? FramesMeasured { get; init; }

    /// <summary>Numbers of those that could not be measured.</summary>
    public IReadOnlyList<int>? FramesFailed { get; init; }

    /// <summary>Numbers of those that were left out: repeated, blurred, or shaken too far.</summary>
    public IReadOnlyList<int>? FramesRejected { get; init; }

    /// <summary>One line about the reference picture.</summary>
    public string? Reference { get; init; }

    /// <summary>Number of frames combined in the reference picture.</summary>
    public int? ReferenceFrames { get; init; }

    /// <summary>Consequences of the choice of reference, one sentence each.</summary>
    public IReadOnlyList<string>? ReferenceWarnings { get; init; }

    /// <summary>How the background drifted until the further stretches of flow-off frames.</summary>
    public IReadOnlyList<BoardDriftFinding>? Drift { get; init; }

    /// <summary>Scale of the printed board as it shows itself in the reference; null where none is described or it was not found.</summary>
    public BoardScale? BoardScale { get; init; }

    /// <summary>The dots of the reference, and what interpolation makes of displacements for them.</summary>
    public SamplingFacts? Sampling { get; init; }

    /// <summary>What was noticed about the footage before it was read, one sentence each.</summary>
    public IReadOnlyList<string>? FootageWarnings { get; init; }

    /// <summary>Everything the user should know, one sentence each.</summary>
    public IReadOnlyList<string>? Warnings { get; init; }

    /// <summary>How the density was obtained and what its uncertainty comes from; null where the run gives none.</summary>
    public DensityDocument? Density { get; init; }

    /// <summary>Angle of the knife-edge view, degrees counter-clockwise; not part of the identity.</summary>
    public double KnifeEdgeDegrees { get; init; }

    /// <summary>What the results depend on: case, scale, inputs, program version.</summary>
    public required RunIdentity Identity { get; init; }

    internal const string FormatName = "bosflow-run";

    internal void WriteTo(Stream stream)
    {
        JsonSerializer.Serialize(stream, this, RunJson.Options);
        stream.WriteByte((byte)'\n');
    }

    internal static RunDocument Read(string path)
    {
        try
        {
            OrdinaryFile.Require(path);
            using FileStream stream = File.OpenRead(path);
            RunDocument? document = JsonSerializer.Deserialize<RunDocument>(stream, RunJson.Options);
            if (document is { Format: FormatName, FormatVersion: 1 })
                return document.Checked(path);
            throw new InputDataException($"{path} was not written by this program, or by another version of it; choose another output folder.");
        }
        catch (JsonException e)
        {
            throw new InputDataException($"{path} is damaged ({e.Message.ReplaceLineEndings(" ")}); choose another output folder, or begin again in this one with --restart.", e);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InputDataException($"{path} cannot be read ({e.Message}); check its permissions.", e);
        }
    }

    // Frames carry the hash: where the words beside it are others, nobody can say what the frames were measured with.
    private RunDocument Checked(string path) => Identity is not null && IdentitySha256 == Identity.Sha256()
        ? this
        : throw new InputDataException(
            $"The identity in {path} does not match its SHA-256: the file was changed by hand, or another version of the program wrote it. Put the file back as it was, choose another folder, or begin again in this one with --restart.");
}
