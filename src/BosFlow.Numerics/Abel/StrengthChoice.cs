namespace BosFlow.Numerics.Abel;

/// <summary>How the strength of smoothing is chosen from the data.</summary>
public enum StrengthChoice
{
    /// <summary>
    /// Generalised maximum likelihood: the strength under which the data are most likely when smooth profiles are taken as normal random ones of that smoothness
    /// (G. Wahba 1985, Ann. Stat. 13, 1378, doi 10.1214/aos/1176349743; from memory). Steadier than cross-validation, and it flattens less: the error it keeps small is
    /// that of the profile, as the tables in the documents show. Needs independent errors; takes the size of the sigmas as known to 16 %, and finds it from the data where these are many.
    /// </summary>
    MaximumLikelihood,

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
