"""x"""
def save_calibration_figures(done, folder):
    return []
