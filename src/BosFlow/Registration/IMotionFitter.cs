namespace BosFlow.Registration;

/// <summary>Fits the motion of the background to displacement vectors, some of which may follow something else. Safe to call from several threads.</summary>
public interface IMotionFitter
{
    /// <summary>Into how many bands of rows the motion divides the picture, each with a shift of its own; 1 for a motion of the whole.</summary>
    int Bands { get; }

    /// <summary>What this kind of motion cannot tell from the undisturbed region at hand, one sentence each.</summary>
    IReadOnlyList<string> Remarks { get; }

    /// <summary>Fits the motion.</summary>
    /// <param name="start">A motion near the one that is looked for; models that search on their own take no notice.</param>
    /// <param name="x">Columns of the vectors in the reference, px.</param>
    /// <param name="y">Rows of the vectors in the reference, px.</param>
    /// <param name="u">Displacements to the right, px. A vector with a value that is not finite is left out.</param>
    /// <param name="v">Displacements down, px.</param>
    /// <returns>The motion with its residuals; its Failure says why there is none.</returns>
    MotionFitResult Fit(IPictureMotion start, ReadOnlySpan<double> x, ReadOnlySpan<double> y, ReadOnlySpan<double> u, ReadOnlySpan<double> v);
}
