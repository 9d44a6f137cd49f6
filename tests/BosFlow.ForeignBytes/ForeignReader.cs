namespace BosFlow.ForeignBytes;

/// <summary>Something of the program that reads bytes it did not make.</summary>
/// <param name="Name">One word.</param>
/// <param name="Title">What is read, in words.</param>
/// <param name="IsText">Whether the input is text, so that tokens are swapped too.</param>
/// <param name="Prepare">Given an empty folder, writes good inputs and whatever must lie beside them; returns the samples.</param>
public sealed record ForeignReader(string Name, string Title, bool IsText, Func<string, IReadOnlyList<Sample>> Prepare);
