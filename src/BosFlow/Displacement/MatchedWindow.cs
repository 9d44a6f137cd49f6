namespace BosFlow.Displacement;

/// <summary>What matching one window gave.</summary>
/// <param name="Du">Remaining displacement to the right, px.</param>
/// <param name="Dv">Remaining displacement down, px.</param>
/// <param name="SigmaU">Standard uncertainty of Du, px.</param>
/// <param name="SigmaV">Standard uncertainty of Dv, px.</param>
/// <param name="Correlation">Normalised correlation, -1 to 1.</param>
internal readonly record struct MatchedWindow(double Du, double Dv, double SigmaU, double SigmaV, double Correlation);
