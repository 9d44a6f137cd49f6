namespace BosFlow.Density;

/// <summary>Edges of the picture, as a set.</summary>
[Flags]
public enum PictureEdge
{
    /// <summary>No edge.</summary>
    None = 0,

    /// <summary>The first column.</summary>
    Left = 1,

    /// <summary>The last column.</summary>
    Right = 2,

    /// <summary>The first row.</summary>
    Top = 4,

    /// <summary>The last row.</summary>
    Bottom = 8,
}
