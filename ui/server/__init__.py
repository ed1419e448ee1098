"""The page server's own script; apart from pages/, which Streamlit would otherwise run itself."""
