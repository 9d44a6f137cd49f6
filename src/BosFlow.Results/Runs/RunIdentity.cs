using System.Reflection;
using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Nodes;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Speckle.Boards;

namespace BosFlow.Results.Runs;

/// <summary>What a frame's result depends on. Two runs may share a folder only if theirs is the same.</summary>
public sealed record RunIdentity
{
    /// <summary>The effective case.</summary>
    public required ExperimentCase Case { get; init; }

    /// <summary>The factors from px to optical quantities that follow from the case; null where it has no rig.</summary>
    public OpticalScale? Scale { get; init; }

    /// <summary>The printed board that the case describes; null where it describes none.</summary>
    public BoardFacts? Board { get; init; }

    /// <summary>Kind, codec, depth and decoder of the footage: another decoder may give other grey levels.</summary>
    public required string FootageDescription { get; init; }

    /// <summary>The files, with their hashes.</summary>
    public required IReadOnlyList<RunInput> Inputs { get; init; }

    /// <summary>Version of the program.</summary>
    public string ProgramVersion { get; init; } = ThisProgram;

    /// <summary>Version of the running program.</summary>
    public static string ThisProgram { get; } =
        typeof(RunIdentity).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "unknown";

    /// <summary>The identity of a run that is about to start; hashes every input file.</summary>
    /// <param name="experiment">The effective case.</param>
    /// <param name="footage">What is known of the footage.</param>
    /// <param name="referenceFiles">Reference pictures, absolute paths; empty where frames of the footage serve.</param>
    /// <param name="scale">Factors from px to optical quantities; null where the case has no rig.</param>
    /// <param name="cancellationToken">Stops the hashing.</param>
    /// <exception cref="InputDataException">A file cannot be read.</exception>
    public static RunIdentity Of(ExperimentCase experiment, FootageInfo footage, IReadOnlyList<string> referenceFiles, OpticalScale? scale, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(footage);
        return new RunIdentity
        {
            Case = experiment,
            Scale = scale,
            FootageDescription = footage.Description,
            Inputs = [.. InputHashing.Hash("footage", footage.Files, cancellationToken), .. InputHashing.Hash("reference", referenceFiles, cancellationToken)],
        };
    }

    /// <summary>SHA-256 over everything that counts, 64 hexadecimal digits.</summary>
    public string Sha256()
    {
        // Hashed while it is written: a night's footage may be ten thousand files.
        using var hash = SHA256.Create();
        using (var stream = new CryptoStream(Stream.Null, hash, CryptoStreamMode.Write))
            JsonSerializer.Serialize(stream, Counting(), RunJson.Options);
        return Convert.ToHexStringLower(hash.Hash!);
    }

    /// <summary>What differs from another identity, one plain sentence part each, for example: rig.lens_to_flow_metres was 1.2 and is 1.3.</summary>
    /// <param name="earlier">The identity of the run that the folder holds.</param>
    /// <returns>Empty where the two are the same.</returns>
    public IReadOnlyList<string> DifferencesFrom(RunIdentity earlier)
    {
        ArgumentNullException.ThrowIfNull(earlier);
        return IdentityDifferences.Between(earlier, this);
    }

    /// <summary>Case and scale as JSON, without the inputs.</summary>
    internal JsonNode SettingsToJson() => JsonSerializer.SerializeToNode(Counting() with { Inputs = [] }, RunJson.Options)!;

    // The angle of the knife edge only colours a picture that is drawn again anyway.
    private RunIdentity Counting() => this with { Case = Case with { KnifeEdgeDegrees = 0 } };
}
