namespace BosFlow.Speckle;

/// <summary>One dot of the printed pattern as the camera sees it in the undisturbed reference view.</summary>
/// <param name="X">x of its centre, px of the reference; may lie outside the picture.</param>
/// <param name="Y">y of its centre, px.</param>
/// <param name="Contrast">Grey level at its centre minus the background before integration over the pixel, as a share of full scale; negative for dark dots.</param>
public readonly record struct Dot(double X, double Y, double Contrast);
