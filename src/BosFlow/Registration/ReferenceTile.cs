namespace BosFlow.Registration;

/// <summary>A tile of the reference picture, ready for correlation.</summary>
/// <param name="Left">First column, px.</param>
/// <param name="Top">First row, px.</param>
/// <param name="Pixels">Grey levels about their local mean, row-major.</param>
internal sealed record ReferenceTile(int Left, int Top, float[] Pixels);
