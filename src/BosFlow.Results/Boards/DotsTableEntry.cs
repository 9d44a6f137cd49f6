namespace BosFlow.Results.Boards;

/// <summary>What a description says of the table of its dots.</summary>
/// <param name="File">Name of the file in the description's folder.</param>
/// <param name="Sha256">SHA-256 of the file, hexadecimal, small letters.</param>
/// <param name="Count">Number of dots.</param>
internal sealed record DotsTableEntry(string File, string Sha256, int Count);
