namespace BosFlow.Results.NetCdf;

/// <summary>A named piece of text or a short list of numbers attached to a variable or to the file.</summary>
/// <param name="Name">Name, for example units; not empty.</param>
/// <param name="Value">A string, string[], double, double[], float, float[], int, int[], byte or byte[]; lists are not empty. Read back, a single number or text comes as such and a list of one as a list of one.</param>
public sealed record NetCdfAttribute(string Name, object Value);
