namespace BosFlow.Registration;

/// <summary>How well a fitted motion is known at any place of the reference picture.</summary>
public interface IMotionUncertainty
{
    /// <summary>Standard uncertainty of the motion's displacement at a place, the errors of the fitted vectors taken as independent.</summary>
    /// <param name="x">Column in the reference, px.</param>
    /// <param name="y">Row in the reference, px.</param>
    /// <returns>1 sigma of u and v, px.</returns>
    (double SigmaU, double SigmaV) At(double x, double y);

    /// <summary>Largest standard uncertainty over a picture.</summary>
    /// <param name="width">Width of the picture, px.</param>
    /// <param name="height">Height of the picture, px.</param>
    /// <returns>1 sigma of the worse component at the worst place, px.</returns>
    double Largest(int width, int height);
}
