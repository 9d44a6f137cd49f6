namespace BosFlow.Numerics.Abel;

/// <summary>How the strength of smoothing is chosen from the data.</summary>
public enum StrengthChoice
{
    /// <summary>
    /// Generalised cross-validation: the smallest N RSS / (N - p)^2, with p the effective number of parameters (P. Craven and G. Wahba 1979, Numer. Math. 31, 377,
    /// doi 10.1007/BF01404567; from memory). Needs no trust in the size of the sigmas, but independent errors: correlated ones are taken for signal.
    /// </summary>
    CrossValidation,

    /// <summary>
    /// The discrepancy principle: residuals as large as the sigmas say, RSS = N (V. A. Morozov 1966; from memory). Trusts the size of the sigmas,
    /// holds for correlated errors too, and smooths rather too much.
    /// </summary>
    Discrepancy,
}
