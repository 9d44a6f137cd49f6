using BosFlow.Speckle.Boards;

namespace BosFlow.Media.Calibration;

/// <summary>A plane target whose points have known places.</summary>
public abstract record CalibrationTarget
{
    private CalibrationTarget()
    {
    }

    /// <summary>What it is, for messages and the lens file.</summary>
    public abstract string Description { get; }

    /// <summary>A checkerboard.</summary>
    /// <param name="Columns">Inner corners in a row, where four squares meet.</param>
    /// <param name="Rows">Inner corners in a column.</param>
    /// <param name="SquareMetres">Side of a square, m.</param>
    public sealed record Checkerboard(int Columns, int Rows, double SquareMetres) : CalibrationTarget
    {
        /// <inheritdoc/>
        public override string Description => FormattableString.Invariant($"checkerboard of {Columns} x {Rows} inner corners, squares of {Math.Round(SquareMetres * 1e3, 6)} mm");
    }

    /// <summary>Dark discs on a square grid.</summary>
    /// <param name="Columns">Discs in a row.</param>
    /// <param name="Rows">Discs in a column.</param>
    /// <param name="SpacingMetres">Distance of neighbouring centres, m.</param>
    public sealed record Circles(int Columns, int Rows, double SpacingMetres) : CalibrationTarget
    {
        /// <inheritdoc/>
        public override string Description => FormattableString.Invariant($"{Columns} x {Rows} discs {Math.Round(SpacingMetres * 1e3, 6)} mm apart");
    }

    /// <summary>A printed background with fiducials.</summary>
    /// <param name="Printed">The board.</param>
    /// <param name="Name">Name of its description.</param>
    public sealed record PrintedBoard(Board Printed, string Name) : CalibrationTarget
    {
        /// <inheritdoc/>
        public override string Description => $"the fiducials of the board {Name}";
    }
}
