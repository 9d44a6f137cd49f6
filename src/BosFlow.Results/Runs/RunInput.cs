namespace BosFlow.Results.Runs;

/// <summary>A file that a run was made from.</summary>
/// <param name="Role">footage, reference or board.</param>
/// <param name="Name">File name without its folder, so that a case may move.</param>
/// <param name="Bytes">Length, bytes.</param>
/// <param name="Sha256">SHA-256 of the content, 64 hexadecimal digits.</param>
public sealed record RunInput(string Role, string Name, long Bytes, string Sha256);
