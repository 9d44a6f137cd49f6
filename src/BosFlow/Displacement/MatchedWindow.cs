namespace BosFlow.Displacement;

/// <summary>What matching one window gave.</summary>
/// <param name="Du">Remaining displacement to the right, px.</param>
/// <param name="Dv">Remaining displacement down, px.</param>
/// <param name="SigmaU">Standard uncertainty of Du as this step alone has it, for residuals that are independent from pixel to pixel, px.</param>
/// <param name="SigmaV">The same of Dv, px.</param>
/// <param name="Correlation">Normalised correlation, -1 to 1.</param>
/// <param name="Gain">Contrast of the frame over that of the reference.</param>
/// <param name="Offset">Grey level of the frame above gain times reference, both less their means, digital numbers.</param>
internal readonly record struct MatchedWindow(double Du, double Dv, double SigmaU, double SigmaV, double Correlation, double Gain, double Offset);
