namespace BosFlow.Results.Boards;

/// <summary>Which part of a text stands at its place.</summary>
internal enum TextAlign
{
    Begin,
    Middle,
    End,
}
