namespace BosFlow.Speckle.Boards;

/// <summary>A background ready to be drawn: every dot and mark at its place. Origin at the upper left corner, x to the right, y down, m.</summary>
public sealed record Board
{
    /// <summary>What was asked for.</summary>
    public required BoardSettings Settings { get; init; }

    /// <summary>Where dots may be; the strips around it hold rulers and legend.</summary>
    public required BoardRectangle Pattern { get; init; }

    /// <summary>Where the legend is to be written.</summary>
    public required BoardRectangle Legend { get; init; }

    /// <summary>Fiducials, by identity; empty for none.</summary>
    public required IReadOnlyList<Fiducial> Fiducials { get; init; }

    /// <summary>Width of the white zone around a fiducial, m; no dot reaches into it.</summary>
    public required double FiducialQuietZone { get; init; }

    /// <summary>Rulers: one along each direction where there is room.</summary>
    public required IReadOnlyList<BoardRuler> Rulers { get; init; }

    /// <summary>Dots, whole inside <see cref="Pattern"/>, in the order drawn.</summary>
    public required IReadOnlyList<PrintedDot> Dots { get; init; }

    /// <summary>Part of the pattern's area, without fiducials and their white zones, that the dots cover, 1.</summary>
    public required double CoverageReached { get; init; }

    /// <summary>Diameter at which a dot is drawn: its size without the gain of the ink, m.</summary>
    /// <param name="dot">A dot of this board.</param>
    public double DrawnDiameter(PrintedDot dot) => Settings.Sizes[dot.Size].DiameterMetres - Settings.InkGainMetres;
}
